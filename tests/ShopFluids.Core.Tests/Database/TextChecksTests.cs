using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Database;

/// <summary>What PostgreSQL cannot keep is refused at its field, and on SQLite too.</summary>
public sealed class TextChecksTests
{
    private const string WithNull = "L-\02";

    [Theory]
    [InlineData("", true)]
    [InlineData("2611-A, unter dem Spänefänger 🛢", true)]
    [InlineData(WithNull, false)]
    [InlineData("\0", false)]
    public void IsStorable_AnyText_IsWhatBothEnginesKeep(string text, bool expected) => Assert.Equal(expected, TextChecks.IsStorable(text));

    [Fact]
    public void IsStorable_HalfOfAPair_IsNot() => Assert.All([$"a{(char)0xd83d}", $"{(char)0xdee2}a", $"{(char)0xd83d}a"], text => Assert.False(TextChecks.IsStorable(text)));

    [Theory, EachDatabase]
    public async Task ReceiveLot_NullInItsNumber_IsRefusedAtTheField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        var result = await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), shop.FluidId, WithNull), Some.Supervisor, TestContext.Current.CancellationToken);

        AssertRefused(result.Error, "number");
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task RecordReading_NullInItsNote_IsRefusedAtTheField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        AssertRefused((await shop.RecordAsync(Some.Reading(note: WithNull))).Error, "note");
    }

    [Theory, EachDatabase]
    public async Task AddArea_NullInItsName_IsRefusedAtTheField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        AssertRefused((await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(Some.Id(), WithNull, 1), Some.Supervisor, TestContext.Current.CancellationToken)).Error, "name");
    }

    [Theory, EachDatabase]
    public async Task EndTask_NullInTheReason_IsRefusedAtTheField(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        AssertRefused((await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(Some.Id(), TaskState.Skipped, WithNull), Some.Supervisor, isSupervisor: true, TestContext.Current.CancellationToken)).Error, "reason");
    }

    private static void AssertRefused(Error? error, string field)
    {
        var refused = Assert.Single(Assert.IsType<FieldErrors>(error).Fields);
        Assert.Equal((field, FieldProblem.NotText), (refused.Field, refused.Problem));
    }
}

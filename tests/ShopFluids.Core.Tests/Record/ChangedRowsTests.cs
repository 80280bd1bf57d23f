using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

public sealed class ChangedRowsTests
{
    private static readonly Guid One = new("01900000-0000-7000-8000-000000000001");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public void Of_EntriesOfSeveralRows_NamesEachByItsEntity()
    {
        var changed = ChangedRows.Of([$$"""[{"entity":"Flag","key":"{{One}}","before":null},{"entity":"SumpMachine","key":"{{One}}:{{One}}"}]""", "[]"]);

        Assert.False(changed.IsUnknown);
        Assert.Equal([One], changed.Of<Flag>());
        Assert.True(changed.Any<Flag>());
        Assert.Empty(changed.Of<CareTask>() ?? [One]);
        Assert.False(changed.Any<CareTask>());
    }

    [Theory]
    [InlineData("[{")]
    [InlineData("{}")]
    [InlineData("[{\"entity\":\"Flag\"}]")]
    [InlineData("[{\"entity\":7,\"key\":\"x\"}]")]
    public void Of_AnEntryThatCannotBeRead_MayBeAnyRow(string changes)
    {
        var changed = ChangedRows.Of(["[]", changes]);

        Assert.True(changed.IsUnknown);
        Assert.Null(changed.Of<Flag>());
        Assert.True(changed.Any<CareTask>());
    }

    [Theory]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void Of_MoreRowsThanAnybodyNames_MayBeAnyOfTheEntity(int rows, bool areNamed)
    {
        var changed = ChangedRows.Of([$"[{string.Join(',', Enumerable.Range(0, rows).Select(_ => $$"""{"entity":"CareTask","key":"{{Some.Id()}}" }"""))}]"]);

        Assert.Equal(areNamed, changed.Of<CareTask>() is not null);
        Assert.True(changed.Any<CareTask>());
        Assert.NotNull(changed.Of<Flag>());
    }

    // 50 acts are asked for; then it is quicker to read everything.
    [Theory]
    [EachDatabase(1, false)]
    [EachDatabase(50, false)]
    [EachDatabase(51, true)]
    public async Task BetweenAsync_ActsSince_NamesWhatTheyChanged(TestDatabase database, int acts, bool isUnknown)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var known = await PlaceAsync(shop);
        for (var n = 0; n < acts; n++)
        {
            await shop.StepAsync(Some.Step(Rules.TaskKind.Skim));
        }

        var changed = await BetweenAsync(shop, known, await PlaceAsync(shop));

        Assert.Equal(isUnknown, changed.IsUnknown);
        Assert.True(changed.Any<CareStep>());
        Assert.Equal(isUnknown, changed.Any<Flag>());
    }

    [Theory, EachDatabase]
    public async Task BetweenAsync_NothingSince_NamesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var known = await PlaceAsync(shop);

        var changed = await BetweenAsync(shop, known, known);

        Assert.False(changed.IsUnknown);
        Assert.False(changed.Any<CareStep>());
    }

    // A database that was put back to an earlier state, and went on from there to the same number, to a higher one, or not as far; and one from which an entry is gone.
    [Theory]
    [EachDatabase(0, "other")]
    [EachDatabase(1, "other")]
    [EachDatabase(-1, null)]
    [EachDatabase(1000, null)]
    public async Task BetweenAsync_ARecordThatDoesNotGoOnFromWhatIsKnown_MayBeAnyRow(TestDatabase database, int ahead, string? hash)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var known = await PlaceAsync(shop);
        await shop.StepAsync(Some.Step(Rules.TaskKind.Skim));
        var now = await PlaceAsync(shop);
        var other = ahead switch
        {
            0 => now with { Hash = hash ?? "" },
            1 => known with { Hash = hash ?? "" },
            -1 => now with { Sequence = now.Sequence + 1 },
            _ => known,
        };

        var changed = await BetweenAsync(shop, other, ahead == 1000 ? now with { Sequence = now.Sequence + 1 } : now);

        Assert.True(changed.IsUnknown);
    }

    private static async Task<RecordPlace> PlaceAsync(ShopFixture shop) => RecordPlace.Of(await shop.ReadAsync(db => Task.FromResult(db.RecordHead.Single())));

    private static async Task<ChangedRows> BetweenAsync(ShopFixture shop, RecordPlace known, RecordPlace now)
    {
        await using var db = await shop.Get<ShopDatabase>().ReadAsync(Token);
        return await new ChangedRowsQuery().BetweenAsync(db, known, now, Token);
    }
}

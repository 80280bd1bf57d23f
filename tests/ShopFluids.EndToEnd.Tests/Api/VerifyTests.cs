using System.Net;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Api;

/// <summary>`shopfluids verify` as an auditor runs it.</summary>
public sealed class VerifyTests
{
    [Theory, EachDatabase]
    public async Task Verify_OneRowChangedByHand_FailsAndNamesTheRow(TestDatabase database)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var id = Guid.CreateVersion7();
        var answer = await shop.Api.PostReadingAsync(ApiClient.Reading(id, Some.SumpTag, await shop.Api.NowAsync()));
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        var (sound, before) = await shop.VerifyAsync();
        Assert.True(sound == 0, before);

        await using (var sql = await RawSql.OpenAsync(database))
        {
            Assert.Equal(1, await sql.ExecuteAsync(ChangeOneMeasurement));
        }

        var (unsound, after) = await shop.Data.RunAsync("verify");
        Assert.Equal(1, unsound);
        Assert.Contains("Measurement", after, StringComparison.Ordinal);
        Assert.Contains(id.ToString("D"), after, StringComparison.OrdinalIgnoreCase);
    }

    [Theory, EachDatabase]
    public async Task Verify_WithRules_JudgesEveryReadingAgain(TestDatabase database)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var answer = await shop.Api.PostReadingAsync(ApiClient.Reading(Guid.CreateVersion7(), Some.SumpTag, await shop.Api.NowAsync()));
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        var (sound, before) = await shop.VerifyAsync();
        Assert.True(sound == 0, before);

        var (same, output) = await shop.Data.RunAsync("verify", "--rules");

        Assert.True(same == 0, output);
        Assert.Contains("1 readings", output, StringComparison.Ordinal);
        Assert.Contains(Texts.Replay_Same, output, StringComparison.Ordinal);
    }

    private const string ChangeOneMeasurement = "UPDATE \"Measurements\" SET \"RawValue\" = '9.5' WHERE \"Parameter\" = 'ph'";
}

using System.Net;
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

    private const string ChangeOneMeasurement = "UPDATE \"Measurements\" SET \"RawValue\" = '9.5' WHERE \"Parameter\" = 'ph'";
}

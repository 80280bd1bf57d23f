using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sumps;

/// <summary>Invariant 14: whatever was done in whatever order, every standing equals its rebuild, and both engines say the same.</summary>
public sealed class StandingTests
{
    private const int Steps = 40;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task Commands_InAnyOrder_StandingEqualsRebuildAndEnginesAgree(int seed)
    {
        var logs = new List<IReadOnlyList<string>>();
        foreach (var engine in Enum.GetValues<DatabaseEngine>())
        {
            await using var database = await TestDatabase.CreateAsync(engine);
            await using var shop = await ShopFixture.OpenAsync(database);
            var random = new RandomShop(shop, seed);
            for (var step = 0; step < Steps; step++)
            {
                await random.StepAsync();
                var findings = (await shop.VerifyAsync()).Findings;
                Assert.True(findings.Count == 0, $"{engine}, seed {seed}, step {step}: {string.Join("; ", findings)} after {string.Join('\n', random.Log.TakeLast(2))}");
            }

            logs.Add(random.Log);
        }

        Assert.Equal(logs[0], logs[1]);
    }
}

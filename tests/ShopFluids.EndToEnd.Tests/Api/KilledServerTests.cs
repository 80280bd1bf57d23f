using System.Collections.Concurrent;
using System.Net;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Api;

/// <summary>What the server has said it stored is stored, however it ends.</summary>
public sealed class KilledServerTests
{
    private const int Posts = 1000;
    private const int AcknowledgedBeforeTheKill = 400;
    private const int Clients = 8;

    [Theory, EachDatabase]
    public async Task Kill_InTheMiddleOfAThousandPosts_LosesNoAcknowledgedReading(TestDatabase database)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var takenAt = await shop.Api.NowAsync();
        var acknowledged = new ConcurrentBag<Guid>();
        var (sent, answered) = (0, 0);

        async Task PostUntilTheServerIsGoneAsync()
        {
            while (Interlocked.Increment(ref sent) <= Posts)
            {
                var id = Guid.CreateVersion7();
                ApiAnswer answer;
                try
                {
                    answer = await shop.Api.PostReadingAsync(ApiClient.Reading(id, Some.SumpTag, takenAt, brix: 7.0m + (sent % 20 / 10m)));
                }
                catch (HttpRequestException)
                {
                    // Cut off without an answer: nobody was promised anything.
                    return;
                }

                Assert.True(answer.Status is HttpStatusCode.Created or HttpStatusCode.OK, answer.Body);
                acknowledged.Add(id);
                if (Interlocked.Increment(ref answered) == AcknowledgedBeforeTheKill)
                {
                    shop.Server.Kill();
                }
            }
        }

        await Task.WhenAll(Enumerable.Range(0, Clients).Select(_ => Task.Run(PostUntilTheServerIsGoneAsync)));

        Assert.InRange(acknowledged.Count, AcknowledgedBeforeTheKill, Posts - 1);
        await shop.RestartAsync();
        var stored = (await shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings?limit=200")).Select(r => r.GetProperty("id").GetGuid()).ToHashSet();
        Assert.DoesNotContain(acknowledged, id => !stored.Contains(id));
        var (exitCode, output) = await shop.VerifyAsync();
        Assert.True(exitCode == 0, output);
    }
}

using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Flags;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Escalations;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Escalations;

/// <summary>Word of what nobody answered, posted to a program on this machine.</summary>
public sealed class WebhookTests
{
    private const string Secret = "both sides know this one";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Send_FlagsThatWereMarked_PostsThemOnceSigned(TestDatabase database)
    {
        await using var shop = await MarkedAsync(database);
        await using var receiver = await LocalReceiver.StartAsync();
        var delivery = Delivery(shop, receiver);

        Assert.Equal(1, await delivery.SendWaitingAsync(Stop));
        Assert.Equal(0, await delivery.SendWaitingAsync(Stop));

        var posted = await receiver.NextAsync();
        Assert.True(receiver.IsEmpty);
        Assert.Equal(("/hook?token=t0p", "application/json; charset=utf-8"), (posted.Path, posted.ContentType));
        var seconds = posted.Headers[WebhookSender.TimeHeader];
        Assert.Equal(new DateTimeOffset(shop.Now).ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture), seconds);
        byte[] signed = [.. Encoding.UTF8.GetBytes(seconds + "."), .. posted.Body];
        var mac = HMACSHA256.HashData(Encoding.UTF8.GetBytes(Secret), signed);
        Assert.Equal($"sha256={Convert.ToHexStringLower(mac)}", posted.Headers[WebhookSender.SignatureHeader]);
        var body = JsonDocument.Parse(posted.Body).RootElement;
        Assert.Equal((posted.Headers[WebhookSender.IdHeader], "flags.escalated", "Hall 3"), (body.GetProperty("id").GetString(), body.GetProperty("event").GetString(), body.GetProperty("shop").GetString()));
        var flag = Assert.Single(body.GetProperty("flags").EnumerateArray());
        Assert.Equal(
            (Some.SumpTag, "limit", "concentration", "action", "/sumps/S-07", Some.Start),
            (flag.GetProperty("sump").GetString(), flag.GetProperty("rule").GetString(), flag.GetProperty("about").GetString(), flag.GetProperty("severity").GetString(), flag.GetProperty("path").GetString(), flag.GetProperty("raisedAt").GetDateTime()));
        Assert.True(await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.IsSent).SingleAsync(Stop)));
    }

    // Every refusal is tried again, with the same id and the same body; a redirect is not followed.
    [Theory]
    [EachDatabase(500)]
    [EachDatabase(404)]
    [EachDatabase(302)]
    public async Task Send_Refused_TriesTheSameAgainLater(TestDatabase database, int status)
    {
        await using var shop = await MarkedAsync(database);
        await using var receiver = await LocalReceiver.StartAsync();
        receiver.Answers.Enqueue(status);
        var delivery = Delivery(shop, receiver);

        Assert.Equal(0, await delivery.SendWaitingAsync(Stop));
        Assert.Equal(0, await delivery.SendWaitingAsync(Stop));
        Assert.Equal($"HTTP {status}", await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.LastFault).SingleAsync(Stop)));
        shop.Clock.Advance(EscalationOutbox.FirstWait);
        Assert.Equal(1, await delivery.SendWaitingAsync(Stop));

        var (first, second) = (await receiver.NextAsync(), await receiver.NextAsync());
        Assert.True(receiver.IsEmpty);
        Assert.Equal(first.Body, second.Body);
        Assert.Equal(first.Headers[WebhookSender.IdHeader], second.Headers[WebhookSender.IdHeader]);
        Assert.NotEqual(first.Headers[WebhookSender.SignatureHeader], second.Headers[WebhookSender.SignatureHeader]);
    }

    [Fact]
    public async Task Send_NobodyListens_WaitsAndStoresWhy()
    {
        await using var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        await using var shop = await MarkedAsync(database);
        var receiver = await LocalReceiver.StartAsync();
        await receiver.DisposeAsync();

        Assert.Equal(0, await Delivery(shop, receiver).SendWaitingAsync(Stop));

        var notice = await shop.ReadAsync(db => db.EscalationNotices.SingleAsync(Stop));
        Assert.Equal((false, shop.Now + EscalationOutbox.FirstWait), (notice.IsSent, notice.NextTryAtUtc));
        Assert.StartsWith(nameof(HttpRequestException), notice.LastFault, StringComparison.Ordinal);
    }

    // While the other side takes its time, readings are stored.
    [Theory, EachDatabase]
    public async Task Send_OtherSideIsSlow_KeepsNoWriteWaiting(TestDatabase database)
    {
        await using var shop = await MarkedAsync(database);
        var slow = new HeldSender();
        var sending = new EscalationDelivery(shop.Get<EscalationOutbox>(), [slow], shop.Clock, NullLogger<EscalationDelivery>.Instance).SendWaitingAsync(Stop);
        await slow.Begun.Task.WaitAsync(TimeSpan.FromSeconds(60), Stop);

        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        slow.MayEnd.SetResult();

        Assert.Equal(1, await sending);
    }

    [Theory, EachDatabase]
    public async Task Send_TwoInstancesAtOnce_PostOnce(TestDatabase database)
    {
        await using var shop = await MarkedAsync(database);
        await using var other = shop.Another();
        other.Clock.SetUtcNow(shop.Clock.GetUtcNow());
        await using var receiver = await LocalReceiver.StartAsync();

        var sent = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => Delivery(n % 2 == 0 ? shop : other, receiver).SendWaitingAsync(Stop), Stop)));

        Assert.Equal(1, sent.Sum());
        await receiver.NextAsync();
        Assert.True(receiver.IsEmpty);
    }

    // As it is put together by the settings: the timers mark and send.
    [Fact]
    public async Task Host_WebhookSet_PostsByItself()
    {
        await using var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await using var receiver = await LocalReceiver.StartAsync();
        await using var host = await TestHost.StartAsync(database, set: s => s with { Webhook = new(receiver.Address, Secret) });

        host.Clock.Advance(TimeSpan.FromHours(9));
        await host.Get<EscalateFlagsHandler>().HandleAsync(Stop);
        host.Clock.Advance(TimeSpan.FromSeconds(30));

        Assert.Contains("S-07", Encoding.UTF8.GetString((await receiver.NextAsync()).Body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Host_NothingSet_HasNoWayOut()
    {
        await using var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);

        Assert.Empty(host.Get<EscalationChannels>().Open);
        Assert.Empty(host.Services.GetServices<IEscalationSender>());
        Assert.Null(host.Services.GetService<EscalationDelivery>());
    }

    private static async Task<ShopFixture> MarkedAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton(new EscalationChannels([EscalationChannel.Webhook])));
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(9));
        Assert.Equal(1, await shop.Get<EscalateFlagsHandler>().HandleAsync(Stop));
        return shop;
    }

    private static EscalationDelivery Delivery(ShopFixture shop, LocalReceiver receiver) => new(
        shop.Get<EscalationOutbox>(), [new WebhookSender(new PlainClients(), new(receiver.Address, Secret), shop.Clock)], shop.Clock, NullLogger<EscalationDelivery>.Instance);

    private sealed class PlainClients : IHttpClientFactory
    {
        public HttpClient CreateClient(string name) => new(new SocketsHttpHandler { AllowAutoRedirect = false });
    }

    private sealed class HeldSender : IEscalationSender
    {
        public TaskCompletionSource Begun { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public TaskCompletionSource MayEnd { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public EscalationChannel Channel => EscalationChannel.Webhook;

        public async Task<string?> SendAsync(EscalationMessage message, CancellationToken cancellationToken)
        {
            Begun.TrySetResult();
            await MayEnd.Task.WaitAsync(cancellationToken);
            return null;
        }
    }
}

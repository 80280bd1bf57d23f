using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Escalations;

/// <summary>Word of what nobody answered: written down with the mark, taken by one instance, tried again, given up.</summary>
public sealed class EscalationOutboxTests
{
    private static readonly EscalationChannel[] Both = [EscalationChannel.Webhook, EscalationChannel.Mail];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Escalate_NoWayOut_WritesNothingDown(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await MarkAsync(shop);

        Assert.Equal(1, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EscalatedAtUtc != null, Stop)));
        Assert.Equal(0, await shop.CountAsync<EscalationNotice>());
    }

    // One message for each way, whatever the number of flags; written down in the act that marks them, outside the record.
    [Theory, EachDatabase]
    public async Task Escalate_TwoWaysOut_WritesOneMessageDownForEach(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Stop)).Done();
        await MarkAsync(shop, TimeSpan.FromDays(3));
        Assert.Equal(0, await shop.Get<EscalateFlagsHandler>().HandleAsync(Stop));

        var notices = await shop.ReadAsync(db => db.EscalationNotices.OrderBy(n => n.Channel).ToListAsync(Stop));
        Assert.Equal(Both, notices.Select(n => n.Channel));
        Assert.All(notices, n =>
        {
            Assert.Equal(("Hall 3", shop.Now), (n.Content.Shop, n.MadeAtUtc));
            Assert.Equal(
                [(Some.SumpTag, Some.SumpTag, "limit", "concentration", Verdict.Action), (null, "L-1", "lot", "quarantined", Verdict.Warning)],
                n.Content.Flags.Select(f => (f.SumpTag, f.Subject, f.Rule, f.About, f.Severity)));
            Assert.Contains("4.0 %", n.Content.Flags[0].Text, StringComparison.Ordinal);
            Assert.Contains("L-1", n.Content.Flags[1].Text, StringComparison.Ordinal);
        });
        Assert.Equal(1, await shop.ReadAsync(db => db.RecordEntries.CountAsync(e => e.Code == ActCodes.FlagEscalated, Stop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Take_TwentyAtOnceOnTwoInstances_EachMessageIsOnes(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await using var other = shop.Another();
        await MarkAsync(shop);
        other.Clock.SetUtcNow(shop.Clock.GetUtcNow());

        var taken = await Task.WhenAll(Enumerable.Range(0, 20).Select(n => Task.Run(() => TakeAsync(n % 2 == 0 ? shop : other), Stop)));

        Assert.Equal(Both, taken.OfType<EscalationMessage>().Select(m => m.Channel).Order());
        Assert.Equal(2, taken.OfType<EscalationMessage>().Select(m => m.Id).Distinct().Count());
    }

    // The instance that took it died: once its time is over another one takes it, under the same id.
    [Theory, EachDatabase]
    public async Task Take_InstanceDied_IsTakenAgainWhenItsTimeIsOver(TestDatabase database)
    {
        await using var shop = await OpenAsync(database, EscalationChannel.Mail);
        await MarkAsync(shop);
        var first = await TakeAsync(shop);

        shop.Clock.Advance(EscalationOutbox.Lease - TimeSpan.FromSeconds(1));
        Assert.Null(await TakeAsync(shop));
        shop.Clock.Advance(TimeSpan.FromSeconds(1));
        var second = await TakeAsync(shop);

        Assert.Equal((first!.Id, 1, 2), (second!.Id, first.Tries, second.Tries));

        // What the first one would say now is too late; that it went out counts all the same.
        Assert.False(await Outbox(shop).NoteFailedAsync(first, "HTTP 500", Stop));
        Assert.Null(await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.LastFault).SingleAsync(Stop)));
        await Outbox(shop).NoteSentAsync(first, Stop);
        await Outbox(shop).NoteSentAsync(second, Stop);
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Null(await TakeAsync(shop));
        Assert.True(await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.IsSent).SingleAsync(Stop)));
    }

    [Theory, EachDatabase]
    public async Task NoteFailed_AgainAndAgain_WaitsLongerAndGivesUp(TestDatabase database)
    {
        await using var shop = await OpenAsync(database, EscalationChannel.Webhook);
        await MarkAsync(shop);
        var (waits, made) = (new List<double>(), shop.Now);
        for (var isGivenUp = false; !isGivenUp;)
        {
            var message = await TakeAsync(shop);
            Assert.NotNull(message);
            isGivenUp = await Outbox(shop).NoteFailedAsync(message, new string('x', 500), Stop);
            if (!isGivenUp)
            {
                var next = await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.NextTryAtUtc).SingleAsync(Stop));
                waits.Add((next - shop.Now).TotalMinutes);
                shop.Clock.SetUtcNow(new DateTimeOffset(next).AddMilliseconds(-1));
                Assert.Null(await TakeAsync(shop));
                shop.Clock.Advance(TimeSpan.FromMilliseconds(1));
            }
        }

        Assert.Equal([1, 2, 4, 8, 16, 32, 60, 60], waits.Take(8));
        Assert.All(waits.Skip(8), w => Assert.Equal(60, w));
        Assert.InRange(shop.Now - made, EscalationOutbox.GivenUpAfter, EscalationOutbox.GivenUpAfter + EscalationOutbox.LongestWait);
        var notice = await shop.ReadAsync(db => db.EscalationNotices.SingleAsync(Stop));
        Assert.Equal((false, shop.Now, EscalationNotice.MaximumFaultLength), (notice.IsSent, notice.EndedAtUtc, notice.LastFault?.Length));
        shop.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Null(await TakeAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Take_ClockSteppedBack_WaitsNoLongerThanTheLongestWait(TestDatabase database)
    {
        await using var shop = await OpenAsync(database, EscalationChannel.Webhook);
        await MarkAsync(shop);
        var message = await TakeAsync(shop);
        await Outbox(shop).NoteFailedAsync(message!, "HTTP 503", Stop);
        await using var other = shop.Another();
        other.Clock.AdjustTime(shop.Clock.GetUtcNow().AddDays(-2));

        Assert.Equal(message!.Id, (await TakeAsync(other))?.Id);
    }

    [Theory, EachDatabase]
    public async Task Take_WayThatWasClosed_LeavesItsMessagesAndForgetsOldOnes(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await MarkAsync(shop);
        var mail = await shop.Get<EscalationOutbox>().TakeAsync([EscalationChannel.Mail], Stop);
        await Outbox(shop).NoteSentAsync(mail!, Stop);
        Assert.Null(await shop.Get<EscalationOutbox>().TakeAsync([EscalationChannel.Mail], Stop));
        Assert.Null(await shop.Get<EscalationOutbox>().TakeAsync([], Stop));

        shop.Clock.Advance(EscalationOutbox.KeptFor + TimeSpan.FromSeconds(1));
        var webhook = await TakeAsync(shop);

        Assert.Equal(EscalationChannel.Webhook, webhook?.Channel);
        Assert.Equal([EscalationChannel.Webhook], await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.Channel).ToListAsync(Stop)));
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database, params EscalationChannel[] channels) =>
        ShopFixture.OpenAsync(database, also: services => services.AddSingleton(new EscalationChannels(channels.Length == 0 ? Both : channels)));

    private static EscalationOutbox Outbox(ShopFixture shop) => shop.Get<EscalationOutbox>();

    private static Task<EscalationMessage?> TakeAsync(ShopFixture shop) => Outbox(shop).TakeAsync(Both, Stop);

    private static async Task MarkAsync(ShopFixture shop, TimeSpan? after = null)
    {
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(after ?? TimeSpan.FromHours(9));
        Assert.True(await shop.Get<EscalateFlagsHandler>().HandleAsync(Stop) > 0);
    }
}

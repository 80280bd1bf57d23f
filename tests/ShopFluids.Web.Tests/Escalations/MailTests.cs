using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Flags;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Escalations;
using ShopFluids.Web.Settings;
using Xunit;

namespace ShopFluids.Web.Tests.Escalations;

/// <summary>Word of what nobody answered, handed to a mail relay on this machine.</summary>
public sealed class MailTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Send_FlagsThatWereMarked_HandsOneLetterOver(TestDatabase database)
    {
        await using var shop = await MarkedAsync(database);
        await using var relay = new LocalRelay();
        var delivery = Delivery(shop, relay);

        Assert.Equal(1, await delivery.SendWaitingAsync(Stop));
        Assert.Equal(0, await delivery.SendWaitingAsync(Stop));

        var letter = Assert.Single(relay.Letters);
        var id = await shop.ReadAsync(db => db.EscalationNotices.Select(n => n.Id).SingleAsync(Stop));
        Assert.Contains("<coolant@example.org>", letter.From, StringComparison.Ordinal);
        Assert.Equal(2, letter.To.Count);
        Assert.Contains($"Message-ID: <{id}@example.org>", letter.Text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Subject: Hall 3: nobody has answered for S-07", letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Send_RelayRefuses_WaitsAndStoresWhy()
    {
        await using var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        await using var shop = await MarkedAsync(database);
        await using var relay = new LocalRelay(refuses: true);

        Assert.Equal(0, await Delivery(shop, relay).SendWaitingAsync(Stop));

        Assert.Empty(relay.Letters);
        var notice = await shop.ReadAsync(db => db.EscalationNotices.SingleAsync(Stop));
        Assert.False(notice.IsSent);
        Assert.StartsWith("SmtpFailedRecipient", notice.LastFault, StringComparison.Ordinal);
    }

    [Fact]
    public void Letter_SeveralFlags_SaysEachWithItsSince()
    {
        var flags = new[]
        {
            new EscalatedFlag(Some.Id(), "S-07", "S-07", "limit", "concentration", Verdict.Action, Some.Start, "2 March, 08:00", "Concentration 4.0 % is far too low."),
            new EscalatedFlag(Some.Id(), null, "L-1", "lot", "expired", Verdict.Warning, Some.Start, "2 March, 06:00", "Lot L-1 has expired."),
        };
        var message = new EscalationMessage(Some.Id(), EscalationChannel.Mail, Some.Start, new("Hall 3\r\nBcc: x@example.org", flags), 1);

        using var mail = MailSender.Letter(message, Settings(25));

        Assert.Equal("Hall 3  Bcc: x@example.org: nobody has answered for S-07 and 1 more", mail.Subject);
        Assert.Contains("S-07: Concentration 4.0 % is far too low.", mail.Body, StringComparison.Ordinal);
        Assert.Contains("since 2 March, 06:00", mail.Body, StringComparison.Ordinal);
        Assert.Equal(["sup@example.org", "night@example.org"], mail.To.Select(t => t.Address));
    }

    private static async Task<ShopFixture> MarkedAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton(new EscalationChannels([EscalationChannel.Mail])));
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(9));
        Assert.Equal(1, await shop.Get<EscalateFlagsHandler>().HandleAsync(Stop));
        return shop;
    }

    private static EscalationDelivery Delivery(ShopFixture shop, LocalRelay relay) =>
        new(shop.Get<EscalationOutbox>(), [new MailSender(Settings(relay.Port))], shop.Clock, NullLogger<EscalationDelivery>.Instance);

    private static MailSettings Settings(int port) => new("127.0.0.1", port, "coolant@example.org", ["sup@example.org", "night@example.org"], null, null, UsesTls: false);
}

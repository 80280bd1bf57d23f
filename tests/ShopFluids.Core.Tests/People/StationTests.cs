using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.People;

public sealed class StationTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task EnrolStation_Code_WorksOnceAndInTime(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var stations = desk.Shop.Get<SetUpStationsHandler>();
        var tablets = desk.Shop.Get<EnrolStationHandler>();
        var offered = (await stations.HandleAsync(new AddStation(Some.Id(), " South ", "By the wash", "dark"), Some.Supervisor, Stop)).Done();

        Assert.Equal("South", await desk.Shop.Get<StationsQuery>().OfCodeAsync(offered.Code, desk.Shop.Now, Stop));
        var enrolled = (await tablets.HandleAsync(new EnrolStation(offered.Code.Replace("-", " ", StringComparison.Ordinal).ToLowerInvariant()), Stop)).Done();
        Assert.Equal(64, enrolled.Secret.Length);
        Assert.Equal(("South", "By the wash", "dark"), await desk.HereAsync(enrolled.Secret) is { } here ? (here.Name, here.Place, here.Theme) : default);
        Assert.IsType<StationCodeUnknown>((await tablets.HandleAsync(new EnrolStation(offered.Code), Stop)).Refused());

        var late = (await stations.HandleAsync(new OfferStation(offered.Id), Some.Supervisor, Stop)).Done();
        desk.Shop.Clock.Advance(StationRules.CodeHolds + TimeSpan.FromMilliseconds(1));
        Assert.IsType<StationCodeUnknown>((await tablets.HandleAsync(new EnrolStation(late.Code), Stop)).Refused());
        Assert.NotNull(await desk.HereAsync(enrolled.Secret));
        var next = (await stations.HandleAsync(new OfferStation(offered.Id), Some.Supervisor, Stop)).Done();
        (await tablets.HandleAsync(new EnrolStation(next.Code), Stop)).Done();
        Assert.Null(await desk.HereAsync(enrolled.Secret));
    }

    [Theory, EachDatabase]
    public async Task Stations_EveryChange_IsRecordedWithoutSecrets(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var stations = desk.Shop.Get<SetUpStationsHandler>();
        var enrolled = await desk.EnrolAsync("South");
        (await stations.HandleAsync(new ChangeStation(enrolled.Id, "South 2", "By the lathe", "light"), Some.Supervisor, Stop)).Done();
        (await stations.HandleAsync(new RevokeStation(enrolled.Id), Some.Supervisor, Stop)).Done();

        Assert.Null(await desk.HereAsync(enrolled.Secret));
        Assert.IsType<StationNotFound>((await stations.HandleAsync(new RevokeStation(enrolled.Id), Some.Supervisor, Stop)).Refused());
        Assert.IsType<StationNotFound>((await stations.HandleAsync(new OfferStation(enrolled.Id), Some.Supervisor, Stop)).Refused());
        var entries = await desk.Shop.ReadAsync(db => db.RecordEntries.Where(e => e.Code.StartsWith("station.")).OrderBy(e => e.Sequence).ToListAsync(Stop));
        Assert.Equal(["station.made South", "station.enrolled South", "station.changed South 2", "station.revoked South 2"], entries.Select(e => $"{e.Code} {e.Subject}"));
        Assert.All(entries, e => Assert.Equal(Some.Supervisor.PersonId, e.ActorId));
        Assert.All(entries, e => Assert.DoesNotContain("Hash", e.Changes, StringComparison.Ordinal));
        Assert.Empty((await desk.Shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task AddStation_NameTakenOrMissing_IsRefusedAtItsField(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var stations = desk.Shop.Get<SetUpStationsHandler>();
        var first = await desk.EnrolAsync("South");

        Assert.Equal(new FieldError("name", FieldProblem.NotUnique), (await stations.HandleAsync(new AddStation(Some.Id(), "South", "", "shop"), Some.Supervisor, Stop)).Field());
        Assert.Equal(FieldProblem.Missing, (await stations.HandleAsync(new AddStation(Some.Id(), " ", "", "shop"), Some.Supervisor, Stop)).Field().Problem);
        Assert.Equal("theme", (await stations.HandleAsync(new AddStation(Some.Id(), "East", "", "pink"), Some.Supervisor, Stop)).Field().Field);
        (await stations.HandleAsync(new RevokeStation(first.Id), Some.Supervisor, Stop)).Done();
        (await stations.HandleAsync(new AddStation(Some.Id(), "South", "", "shop"), Some.Supervisor, Stop)).Done();
    }

    [Theory, EachDatabase]
    public async Task RecordReading_AtAStation_RecordsPersonAndStationInTheChain(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var station = await desk.StationAsync("South");
        var person = await desk.PersonAsync();

        await desk.Shop.StoreAsync(Some.Reading(), new Actor(person, "Op 1", new ActorStation(station.Id, station.Name)));

        var entry = await desk.Shop.ReadAsync(db => db.RecordEntries.SingleAsync(e => e.Code == ActCodes.ReadingStored, Stop));
        Assert.Equal((person, station.Id, "South"), (entry.ActorId, entry.StationId, entry.StationName));
        Assert.Empty((await desk.Shop.VerifyAsync()).Findings);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "StationName" = 'North' WHERE "Sequence" = {entry.Sequence}""");
        Assert.Contains(new VerifyFinding(VerifyProblem.EntryChanged, $"RecordEntry {entry.Sequence}", entry.Sequence), (await desk.Shop.VerifyAsync()).Findings);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "StationName" = NULL, "StationId" = NULL WHERE "Sequence" = {entry.Sequence}""");
        Assert.NotEmpty((await desk.Shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task NoteContact_TabletWithAWrongClock_IsReckonedByAge(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var station = await desk.StationAsync("South");
        var tablet = desk.Shop.Now.AddMinutes(-3);

        await desk.Shop.Get<NoteContactHandler>().HandleAsync(new NoteContact(station.Id, 2, TimeSpan.FromMinutes(40), tablet), Stop);

        var row = Assert.Single(await desk.Shop.Get<StationsQuery>().AllAsync(Stop));
        Assert.Equal((desk.Shop.Now, 2, desk.Shop.Now.AddMinutes(-40), TimeSpan.FromMinutes(-3)), (row.SeenAtUtc, row.Unsent, row.OldestUnsentAtUtc, row.ClockAhead));
        await desk.Shop.Get<NoteContactHandler>().HandleAsync(new NoteContact(station.Id, -5, null, desk.Shop.Now), Stop);
        row = Assert.Single(await desk.Shop.Get<StationsQuery>().AllAsync(Stop));
        Assert.Equal((0, null, TimeSpan.Zero), (row.Unsent, row.OldestUnsentAtUtc, row.ClockAhead));
        await desk.Shop.Get<NoteContactHandler>().HandleAsync(new NoteContact(Some.Id(), 1, TimeSpan.MaxValue, desk.Shop.Now), Stop);
    }

    [Theory, EachDatabase]
    public async Task SetPin_EasyPin_IsRefused_AndPeopleWithoutStayOffTheTiles(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var (one, two) = (await desk.PersonAsync(), await desk.PersonAsync(pin: null));

        Assert.IsType<PinTooEasy>((await desk.Shop.Get<SetPinHandler>().HandleAsync(new SetPin(two, "111111"), Some.Supervisor, Stop)).Refused());
        Assert.Equal(one, Assert.Single(await desk.Shop.Get<StationsQuery>().PeopleAsync(Stop)).Id);
        var stored = await desk.Shop.ReadAsync(db => db.Users.Where(p => p.Id == one).Select(p => p.PinHash).SingleAsync(Stop));
        Assert.DoesNotContain(PinDesk.Pin, stored, StringComparison.Ordinal);
        Assert.Empty((await desk.Shop.VerifyAsync()).Findings);
    }
}

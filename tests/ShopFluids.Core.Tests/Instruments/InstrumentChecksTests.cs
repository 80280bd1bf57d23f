using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Instruments;

public sealed class InstrumentChecksTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);
    private static readonly AddInstrument PhMeter = new(Some.Id(), "P-1", InstrumentKind.PhMeter, 0.01m, 0.05m, true, null);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_PassesThenFails_CountsAsNotCheckedUntilItPasses(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        var good = Check(7.00m, 7.02m) with { Second = new(10.01m, 9.98m), Note = " New buffers " };
        var bad = Check(7.00m, 7.06m);

        Assert.True((await NoteAsync(shop, good)).Done().Result.Passes);
        Assert.Equal(Today.AddDays(InstrumentCheckRule.UsualDays), (await InstrumentAsync(shop)).HoldsUntil);
        Assert.Equal(new CheckResult(false, 0.06m, null), (await NoteAsync(shop, bad)).Done().Result);
        var failed = await InstrumentAsync(shop);
        var again = (await NoteAsync(shop, Check(7.00m, 7.01m))).Done();

        Assert.Equal((true, (DateOnly?)null), (failed.IsLapsed, failed.CheckedOn));
        Assert.Equal([false, true], failed.Checks.Select(c => c.Passes));
        var row = failed.Checks[1];
        Assert.Equal((new CheckPoint(7.00m, 7.02m), new CheckPoint(10.01m, 9.98m), "New buffers"), (row.First, row.Second, row.Note));
        Assert.Equal((0.02m, 98.3m), (row.Offset, row.SlopePercent));
        Assert.True(again.Result.Passes);
        Assert.False((await InstrumentAsync(shop)).IsLapsed);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SentTwice_IsOneCheck(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        var check = Check(7, 7);
        (await NoteAsync(shop, check)).Done();

        Assert.Equal(check.Id, (await NoteAsync(shop, check)).Done().Id);

        Assert.Single((await InstrumentAsync(shop)).Checks);
        Assert.IsType<OtherContentForId>((await NoteAsync(shop, check with { CheckedOn = Today.AddDays(-1) })).Refused());
        Assert.IsType<OtherContentForId>((await NoteAsync(shop, check with { First = new(7, 7.01m) })).Refused());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NotedLate_DoesNotTakeBackACheckMadeSince(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        (await NoteAsync(shop, Check(7, 7))).Done();

        (await NoteAsync(shop, Check(7, 9) with { CheckedOn = Today.AddDays(-3) })).Done();

        Assert.Equal(Today, (await InstrumentAsync(shop)).CheckedOn);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OlderPassNotedAfterAFailure_TheInstrumentStaysFailed(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        (await NoteAsync(shop, Check(7, 7.5m))).Done();

        Assert.True((await NoteAsync(shop, Check(7, 7) with { CheckedOn = Today.AddDays(-3) })).Done().Result.Passes);

        var failed = await InstrumentAsync(shop);
        Assert.Equal((true, (DateOnly?)null), (failed.IsLapsed, failed.CheckedOn));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Millivolts_AreJudgedBySlope(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        var command = Check(7.01m, -15) with { Second = new(4.01m, 160), IsInMillivolts = true, Celsius = 25 };

        Assert.Equal((true, 98.6m), ((await NoteAsync(shop, command)).Done().Result is var result ? (result.Passes, result.SlopePercent ?? 0) : default));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OutOfRange_NamesTheFieldAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(PhMeter);
        NoteInstrumentCheck inMillivolts = Check(7, 0) with { Second = new(4, 177), IsInMillivolts = true, Celsius = 25 };
        (string Field, NoteInstrumentCheck Check)[] refused =
        [
            ("checkedOn", Check(7, 7) with { CheckedOn = Today.AddDays(1) }),
            ("note", Check(7, 7) with { Note = new string('x', InstrumentCheck.MaximumNoteLength + 1) }),
            ("firstStandard", Check(14.1m, 7)),
            ("firstShown", Check(7, -0.1m)),
            ("firstShown", Check(7, 7) with { First = null }),
            ("firstShown", Check(7, 7) with { First = null, Second = new(4, 4) }),
            ("secondStandard", Check(7, 7) with { Second = new(7.9m, 8) }),
            ("secondShown", inMillivolts with { Second = null }),
            ("secondShown", inMillivolts with { Second = new(4, 1001) }),
            ("celsius", inMillivolts with { Celsius = null }),
            ("celsius", inMillivolts with { Celsius = 51 }),
        ];
        foreach (var (field, check) in refused)
        {
            Assert.Equal(field, (await NoteAsync(shop, check with { Id = Some.Id() })).Field().Field);
        }

        Assert.Empty((await InstrumentAsync(shop)).Checks);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_StandardsOfAStrip_AreRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var strips = new AddInstrument(Some.Id(), "PS-1", InstrumentKind.PhStrips, 0.1m, 0.2m, false, null);
        await shop.InstrumentAsync(strips);

        var error = (await NoteAsync(shop, Check(7, 7) with { InstrumentId = strips.Id })).Field();

        Assert.Equal((FieldProblem.NoStandards, "PS-1"), (error.Problem, error.Detail));
    }

    private static NoteInstrumentCheck Check(decimal standard, decimal shown) => new(Some.Id(), PhMeter.Id, Today) { First = new(standard, shown) };

    private static Task<Result<NotedCheck>> NoteAsync(ShopFixture shop, NoteInstrumentCheck check) => shop.Get<NoteInstrumentCheckHandler>().HandleAsync(check, Some.Operator, Stop);

    private static async Task<CheckedInstrument> InstrumentAsync(ShopFixture shop) =>
        await shop.Get<InstrumentChecksQuery>().RunAsync("p-1", Stop) ?? throw new InvalidOperationException("The instrument is not known.");
}

using System.Globalization;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Bad input: each fault is named at its field with the accepted range, and nothing is stored (invariants 10 and 11).</summary>
public sealed class BadReadingTests
{
    public static TheoryData<string> Cases => [.. Faults.Keys];

    private static readonly TypedMeasurement GoodPh = Some.Typed(ParameterCodes.Ph, 9.0m);

    private static readonly Dictionary<string, (RecordReading Command, FieldError Error, string English, string German, string American)> Faults = new(StringComparer.Ordinal)
    {
        ["pH 15"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Ph, 15m)),
            new("measurements.ph", FieldProblem.OutOfRange, 15, 0, 14, ""),
            "pH 15 is outside the accepted range of 0 to 14.",
            "pH 15 is outside the accepted range of 0 to 14.",
            "pH 15 is outside the accepted range of 0 to 14."),
        ["pH under 0"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Ph, -0.1m)),
            new("measurements.ph", FieldProblem.OutOfRange, -0.1m, 0, 14, ""),
            "pH \u22120.1 is outside the accepted range of 0 to 14.",
            "pH \u22120,1 is outside the accepted range of 0 to 14.",
            "pH \u22120.1 is outside the accepted range of 0 to 14."),
        ["Brix 80"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 80m)),
            new("measurements.concentration", FieldProblem.OutOfRange, 80, 0, 30, "Brix"),
            "Concentration 80 Brix is outside the accepted range of 0 Brix to 30 Brix.",
            "Concentration 80 Brix is outside the accepted range of 0 Brix to 30 Brix.",
            "Concentration 80 Brix is outside the accepted range of 0 Brix to 30 Brix."),
        ["level above the brim"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Level, 400.5m)),
            new("measurements.level", FieldProblem.OverTheBrim, 400.5m, 0, 400, "mm"),
            "Level 400.5 mm is over the brim. The accepted range is 0 mm to 400 mm.",
            "Level 400,5 mm is over the brim. The accepted range is 0 mm to 400 mm.",
            "Level 15.77 in is over the brim. The accepted range is 0.00 in to 15.75 in."),
        ["level above the brim in inches"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Level, 15.8m, "in")),
            new("measurements.level", FieldProblem.OverTheBrim, 15.8m, 0, 15.74m, "in"),
            "Level 15.8 in is over the brim. The accepted range is 0 in to 15.74 in.",
            "Level 15,8 in is over the brim. The accepted range is 0 in to 15,74 in.",
            "Level 15.8 in is over the brim. The accepted range is 0 in to 15.74 in."),
        ["level under the floor"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Level, -1m)),
            new("measurements.level", FieldProblem.OutOfRange, -1, 0, 400, "mm"),
            "Level \u22121 mm is outside the accepted range of 0 mm to 400 mm.",
            "Level \u22121 mm is outside the accepted range of 0 mm to 400 mm.",
            "Level \u22120.04 in is outside the accepted range of 0.00 in to 15.75 in."),
        ["level of 101 %"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Level, 101m, "%")),
            new("measurements.level", FieldProblem.OverTheBrim, 101, 0, 100, "%"),
            "Level 101 % is over the brim. The accepted range is 0 % to 100 %.",
            "Level 101 % is over the brim. The accepted range is 0 % to 100 %.",
            "Level 101 % is over the brim. The accepted range is 0 % to 100 %."),
        ["boiling"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Temperature, 96m)),
            new("measurements.temperature", FieldProblem.OutOfRange, 96, -5, 95, "°C"),
            "Temperature 96 °C is outside the accepted range of \u22125 °C to 95 °C.",
            "Temperature 96 °C is outside the accepted range of \u22125 °C to 95 °C.",
            "Temperature 205 °F is outside the accepted range of 23 °F to 203 °F."),
        ["boiling in Fahrenheit"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Temperature, 210m, "°F")),
            new("measurements.temperature", FieldProblem.OutOfRange, 210, 23, 203, "°F"),
            "Temperature 210 °F is outside the accepted range of 23 °F to 203 °F.",
            "Temperature 210 °F is outside the accepted range of 23 °F to 203 °F.",
            "Temperature 210 °F is outside the accepted range of 23 °F to 203 °F."),
        ["hardness in grains"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Hardness, 300m, "gpg")),
            new("measurements.hardness", FieldProblem.OutOfRange, 300, 0, 292.0m, "gpg"),
            "Hardness 300 gpg is outside the accepted range of 0 gpg to 292 gpg.",
            "Hardness 300 gpg is outside the accepted range of 0 gpg to 292 gpg.",
            "Hardness 300 gpg is outside the accepted range of 0 gpg to 292 gpg."),
        ["bacteria by the thousand million"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Bacteria, 2_000_000_000m, "CFU/mL")),
            new("measurements.bacteria", FieldProblem.OutOfRange, 2_000_000_000m, 0, 1_000_000_000m, "CFU/mL"),
            "Bacteria 2,000,000,000 CFU/mL is outside the accepted range of 0 CFU/mL to 1,000,000,000 CFU/mL.",
            "Bacteria 2.000.000.000 CFU/mL is outside the accepted range of 0 CFU/mL to 1.000.000.000 CFU/mL.",
            "Bacteria 2,000,000,000 CFU/mL is outside the accepted range of 0 CFU/mL to 1,000,000,000 CFU/mL."),
        ["between two words"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Odour, 1.5m)),
            new("measurements.odour", FieldProblem.UnknownChoice, 1.5m, 0, 3),
            "Odour: the choice is not one of those offered.",
            "Odour: the choice is not one of those offered.",
            "Odour: the choice is not one of those offered."),
        ["unknown unit"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Level, 300m, "furlong")),
            new("measurements.level.unit", FieldProblem.UnknownUnit, Detail: "mm, in, %"),
            "Unit of Level: the unit is not known here. Accepted: mm, in, %.",
            "Unit of Level: the unit is not known here. Accepted: mm, in, %.",
            "Unit of Level: the unit is not known here. Accepted: mm, in, %."),
        ["unknown method"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8m, method: "guess")),
            new("measurements.concentration.method", FieldProblem.UnknownMethod, Detail: "refractometer, titration, direct"),
            "Method of Concentration: the method is not known here. Accepted: refractometer, titration, direct.",
            "Method of Concentration: the method is not known here. Accepted: refractometer, titration, direct.",
            "Method of Concentration: the method is not known here. Accepted: refractometer, titration, direct."),
        ["nothing measured"] = (
            Some.ReadingOf(),
            new("measurements", FieldProblem.NothingMeasured),
            "Nothing measured. Enter at least one value.",
            "Nothing measured. Enter at least one value.",
            "Nothing measured. Enter at least one value."),
        ["ten thousand characters"] = (
            Some.ReadingOf(GoodPh) with { Note = new string('x', 10_240) },
            new("note", FieldProblem.TooLong, 10_240, 0, 2000),
            "Note has 10,240 characters. At most 2,000 are kept.",
            "Note has 10.240 characters. At most 2.000 are kept.",
            "Note has 10,240 characters. At most 2,000 are kept."),
        ["a future time"] = (
            Some.ReadingOf(GoodPh) with { TakenAtUtc = Some.Start.AddMinutes(5).AddMilliseconds(1) },
            new("takenAt", FieldProblem.InTheFuture),
            "Time of the reading lies in the future. The accepted range ends now.",
            "Time of the reading lies in the future. The accepted range ends now.",
            "Time of the reading lies in the future. The accepted range ends now."),
        ["before the fill"] = (
            Some.ReadingOf(GoodPh) with { TakenAtUtc = Some.Start.AddDays(-10).AddMilliseconds(-1) },
            new("takenAt", FieldProblem.BeforeTheFill, EarliestUtc: Some.Start.AddDays(-10)),
            "Time of the reading lies before the fill of this charge. The accepted range begins 20 Feb 2026, 08:00.",
            "Time of the reading lies before the fill of this charge. The accepted range begins 20 Feb. 2026, 08:00.",
            "Time of the reading lies before the fill of this charge. The accepted range begins 20 Feb 2026, 08:00."),
        ["no temperature"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8m, instrument: "R-2")),
            new("measurements.concentration.temperatureC", FieldProblem.TemperatureNeeded, null, 10, 30, "°C", "R-2"),
            "Concentration, Sample temperature: this refractometer does not compensate temperature. Enter the sample temperature, 10 °C to 30 °C.",
            "Concentration, Sample temperature: this refractometer does not compensate temperature. Enter the sample temperature, 10 °C to 30 °C.",
            "Concentration, Sample temperature: this refractometer does not compensate temperature. Enter the sample temperature, 50 °F to 86 °F."),
        ["31 °C"] = (
            Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8m, temperature: 31m, instrument: "R-2")),
            new("measurements.concentration.temperatureC", FieldProblem.OutOfRange, 31, 10, 30, "°C"),
            "Concentration, Sample temperature 31 °C is outside the accepted range of 10 °C to 30 °C.",
            "Concentration, Sample temperature 31 °C is outside the accepted range of 10 °C to 30 °C.",
            "Concentration, Sample temperature 88 °F is outside the accepted range of 50 °F to 86 °F."),
        ["twice in one reading"] = (
            Some.ReadingOf(GoodPh, Some.Typed(ParameterCodes.Ph, 9.1m)),
            new("measurements.ph", FieldProblem.TwiceInOneReading),
            "pH is given twice in one reading with the same method.",
            "pH is given twice in one reading with the same method.",
            "pH is given twice in one reading with the same method."),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task HandleAsync_BadInput_NamesFieldAndRangeAndStoresNothing(string fault)
    {
        var (command, expected, english, german, american) = Faults[fault];
        foreach (var engine in Enum.GetValues<DatabaseEngine>())
        {
            await using var database = await TestDatabase.CreateAsync(engine);
            await using var shop = await ShopFixture.OpenAsync(database);
            await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));
            var before = await shop.FootprintAsync();

            var error = (await shop.RecordAsync(command)).Field();
            var previewed = (await shop.Get<PreviewReadingQuery>().RunAsync(command, TestContext.Current.CancellationToken)).Field();

            Assert.Equal(expected, error);
            Assert.Equal(expected, previewed);
            Assert.Equal(english, await SentenceAsync(shop, error, "en-GB", UnitSystem.Metric));
            Assert.Equal(german, await SentenceAsync(shop, error, "de-DE", UnitSystem.Metric));
            Assert.Equal(american, await SentenceAsync(shop, error, "en-US", UnitSystem.UsCustomary));
            Assert.Equal(before, await shop.FootprintAsync());
        }
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_UnknownParameterOrInstrument_SaysWhichAreKnown(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        await shop.InstrumentAsync(Some.PhMeter());

        var errors = (await shop.RecordAsync(Some.ReadingOf(Some.Typed("luck", 7m), Some.Typed(ParameterCodes.Ph, 9m, instrument: "PH-9")))).Fields();

        Assert.Equal(["measurements.luck", "measurements.ph.instrument"], errors.Select(e => e.Field));
        Assert.StartsWith("concentration, ph, level", errors[0].Detail, StringComparison.Ordinal);
        Assert.Equal("PH-1", errors[1].Detail);
    }

    [Theory]
    [EachDatabase(ParameterCodes.Concentration, "", "RULE-1", "R-1")]
    [EachDatabase(ParameterCodes.Concentration, "titration", "R-1", "")]
    [EachDatabase(ParameterCodes.Ph, "", "R-1", "PH-1")]
    [EachDatabase(ParameterCodes.Level, "", "PH-1", "RULE-1")]
    [EachDatabase(ParameterCodes.Hardness, "", "PH-1", "")]
    public async Task HandleAsync_InstrumentOfAnotherKind_SaysWhichFit(TestDatabase database, string parameter, string method, string instrument, string fitting)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        await shop.InstrumentAsync(Some.PhMeter());
        await shop.InstrumentAsync(new AddInstrument(Some.Id(), "RULE-1", InstrumentKind.Rule, 10, 2, true, null));
        var before = await shop.FootprintAsync();

        var error = (await shop.RecordAsync(Some.ReadingOf(Some.Typed(parameter, 9m, method: method, instrument: instrument)))).Field();

        Assert.Equal(new FieldError($"measurements.{parameter}.instrument", FieldProblem.UnknownInstrument, Detail: fitting), error);
        Assert.Equal(before, await shop.FootprintAsync());
        Assert.EndsWith(fitting.Length == 0 ? "Leave the instrument out." : $"Those that do: {fitting}.", await SentenceAsync(shop, error, "en-GB", UnitSystem.Metric), StringComparison.Ordinal);
    }

    // Twenty of five each make 100 %, and no burette holds more than 100 mL: what lies above is refused at its field, and what is named as
    // the end is accepted.
    [Theory]
    [EachDatabase(5.0, "Brix", 22.0, 20.0)]
    [EachDatabase(7.0, "Brix", 22.0, 14.28)]
    [EachDatabase(2.0, "mL", 100.0, 50.0)]
    [EachDatabase(0.5, "mL", 100.01, 100.0)]
    [EachDatabase(3.0, "mL", 34.0, 33.33)]
    public async Task HandleAsync_MoreThanAHundredPercent_NamesTheHighestValueThatIsNot(TestDatabase database, double factor, string unit, double typed, double highest)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var fluid = Some.Id();
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(fluid, "Emulsion B", (decimal)factor, (decimal)factor), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), fluid, null, water: 150, concentrate: 0))).Done();
        var method = unit == "mL" ? "titration" : null;

        var error = (await shop.RecordAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, (decimal)typed, unit, method)))).Field();

        Assert.Equal((FieldProblem.OutOfRange, (decimal?)highest), (error.Problem, error.High));
        Assert.Equal((decimal)(factor * highest), (await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, (decimal)highest, unit, method)))).Measurements[0].Value, 0);
    }

    // 393.7 mm: the level at the brim is not rounded over it.
    [Theory]
    [EachDatabase("mm", 393.7, 393)]
    [EachDatabase("in", 15.5, 393)]
    [EachDatabase("%", 100.0, 393)]
    [EachDatabase("mm", 393.4, 393)]
    public async Task HandleAsync_LevelAtABrimThatIsNoWholeMillimetre_IsStoredUnderIt(TestDatabase database, string unit, double typed, double expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08", shape: new SumpShape(GeometryKind.Rectangular, 1000, 500, 393.7m, 0, [])));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08"))).Done();

        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Level, (decimal)typed, unit)) with { SumpTag = "S-08" });

        Assert.Equal((decimal)expected, Assert.Single(outcome.Measurements).Value);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SeveralFaults_AreToldAtOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var errors = (await shop.RecordAsync(Some.Reading(brix: 80, ph: 15, levelMm: 500, id: Guid.Empty, note: new string('x', 2001)))).Fields();

        Assert.Equal(["id", "note", "measurements.concentration", "measurements.ph", "measurements.level"], errors.Select(e => e.Field));
    }

    // A number no instrument shows must be refused, not overflow.
    [Theory]
    [EachDatabase(ParameterCodes.Level, "in")]
    [EachDatabase(ParameterCodes.Level, "%")]
    [EachDatabase(ParameterCodes.Level, "mm")]
    [EachDatabase(ParameterCodes.Hardness, "gpg")]
    [EachDatabase(ParameterCodes.Hardness, "dH")]
    [EachDatabase(ParameterCodes.Temperature, "°F")]
    [EachDatabase(ParameterCodes.Bacteria, "CFU/mL")]
    [EachDatabase(ParameterCodes.Ph, "")]
    [EachDatabase(ParameterCodes.Concentration, "Brix")]
    public async Task HandleAsync_HugeNumber_IsRefusedAtItsField(TestDatabase database, string parameter, string unit)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal($"measurements.{parameter}", (await shop.RecordAsync(Some.ReadingOf(Some.Typed(parameter, decimal.MaxValue, unit)))).Field().Field);
    }

    // Signs that one engine cannot hold must not make a reading depend on the engine.
    [Theory]
    [EachDatabase("half a sign \ud83d")]
    public async Task HandleAsync_NoteWithSignsThatAreNoText_IsStoredWithoutThemAndVerifies(TestDatabase database, string note)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        await shop.StoreAsync(Some.Reading(note: note));

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AtTheEdges_IsAccepted(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        await shop.StoreAsync(Some.Reading(brix: 30, ph: 14, levelMm: 400, takenAt: Some.Start.AddMinutes(5), note: new string('x', 2000)));
        await shop.StoreAsync(Some.Reading(brix: 0, ph: 0, levelMm: 0, takenAt: Some.Start.AddDays(-10)));

        Assert.Equal(2, await shop.CountAsync<Reading>());
    }

    private static async Task<string> SentenceAsync(ShopFixture shop, FieldError error, string culture, UnitSystem units)
    {
        var setup = await shop.SetupAsync();
        return new Sentences(new ShopFormat(CultureInfo.GetCultureInfo(culture), units, setup.Calendar), setup).Field(error);
    }
}

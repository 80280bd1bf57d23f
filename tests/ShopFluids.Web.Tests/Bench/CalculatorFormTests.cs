using System.Globalization;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Web.Pages.Bench;
using ShopFluids.Web.Pages.Bench.Pictures;
using Xunit;

namespace ShopFluids.Web.Tests.Bench;

public sealed class CalculatorFormTests
{
    private static readonly BenchCalculator FreshMix = new BenchList().Find("fresh-mix") ?? throw new InvalidOperationException("There is no fresh mix.");
    private static readonly Dictionary<string, string> NoAddress = [];

    [Fact]
    public void Fill_NothingKnown_ShowsAnExampleThatIsWorkedOut()
    {
        var form = Form(UnitSystem.Metric);

        form.Fill(NoAddress, null);

        Assert.Equal("20", form.Text(Input("volumeLitres")));
        Assert.NotNull(form.Answer);
    }

    [Fact]
    public void Address_TypedInGallons_HoldsLitresAndReadsBackTheSame()
    {
        var form = Form(UnitSystem.UsCustomary);
        form.Fill(NoAddress, null);
        form.Change(Input("volumeLitres"), "10");

        Assert.Equal("37.854118", form.Address["volumeLitres"]);

        var again = Form(UnitSystem.UsCustomary);
        again.Fill(form.Address, null);
        Assert.Equal("10", again.Text(Input("volumeLitres")));
        Assert.Equal(form.Answer!.Figures.Select(f => f.Value), again.Answer!.Figures.Select(f => f.Value));
    }

    [Fact]
    public void Change_WrongNumber_KeepsWhatWasTypedAndNamesTheRange()
    {
        var form = Form(UnitSystem.Metric);
        form.Fill(NoAddress, null);

        form.Change(Input("percent"), "140");

        Assert.Null(form.Answer);
        Assert.Equal("140", form.Text(Input("percent")));
        var fault = form.Fault(Input("percent"));
        Assert.Equal((FieldProblem.OutOfRange, 0.01m, 100m), (fault!.Problem, fault.Low, fault.High));
        Assert.Null(form.Fault(Input("volumeLitres")));
    }

    [Fact]
    public void Change_CommaForThePoint_IsReadAsDecimals()
    {
        var form = Form(UnitSystem.Metric);
        form.Fill(NoAddress, null);

        form.Change(Input("percent"), "7,5");

        Assert.Equal("7.5", form.Address["percent"]);
        Assert.Equal(1.5, form.Answer!.Figures.Single(f => f.Output.Code == "concentrateLitres").Value);
    }

    [Fact]
    public void Fill_AddressWithNonsense_KeepsItAndSaysSo()
    {
        var form = Form(UnitSystem.Metric);

        form.Fill(new Dictionary<string, string> { ["volumeLitres"] = "much", ["percent"] = "8", ["measurableLitres"] = "0.1" }, null);

        Assert.Equal("much", form.Text(Input("volumeLitres")));
        Assert.Equal(FieldProblem.NotANumber, form.Fault(Input("volumeLitres"))!.Problem);
    }

    [Theory]
    [InlineData("nozzle", "pressureBar", "29", "1.999479615")]
    [InlineData("turnovers", "flowLitresPerMinute", "10", "37.854118")]
    [InlineData("skimmer", "skimmerLitresPerHour", "2", "7.570824")]
    [InlineData("charge-cost", "concentratePricePerLitre", "16", "4.226753")]
    public void Change_FlowPressureOrPriceInUsUnits_KeepsItCanonical(string code, string input, string typed, string kept)
    {
        var calculator = new BenchList().Find(code)!;
        var form = new CalculatorForm(calculator, Format(UnitSystem.UsCustomary));
        form.Fill(NoAddress, null);

        form.Change(calculator.Inputs.Single(i => i.Code == input), typed);

        Assert.NotNull(form.Answer);
        Assert.Equal(decimal.Parse(kept, CultureInfo.InvariantCulture), decimal.Parse(form.Address[input], CultureInfo.InvariantCulture), 5);
    }

    [Fact]
    public void Fill_ListOfVolumesInUsUnits_ShowsGallonsAndKeepsTheLitres()
    {
        var calculator = new BenchList().Find("blend-of-several")!;
        var volumes = calculator.Inputs[0];
        var form = new CalculatorForm(calculator, Format(UnitSystem.UsCustomary));

        form.Fill(NoAddress, null);

        Assert.Equal("39.626 10.567 2.642", form.Text(volumes));
        Assert.Equal("150 40 10", form.Address[volumes.Code]);
        Assert.Equal(200, form.Answer!.Figures[0].Value, 9);

        form.Change(volumes, "10 10 10");

        Assert.Equal("37.854118 37.854118 37.854118", form.Address[volumes.Code]);
    }

    [Fact]
    public void Curves_InUsUnits_AreDrawnAndNamedInThem()
    {
        var form = new CalculatorForm(new BenchList().Find("nozzle")!, Format(UnitSystem.UsCustomary));
        form.Fill(NoAddress, null);
        var curves = Assert.IsType<BenchCurves>(form.Answer!.Picture);

        var (us, metric) = (new CurvesLayout(curves, Format(UnitSystem.UsCustomary)), new CurvesLayout(curves, Format(UnitSystem.Metric)));

        Assert.Equal(("psi", "gal/min"), (us.XTitle, us.YTitle));
        Assert.Equal(("bar", "L/min"), (metric.XTitle, metric.YTitle));
        Assert.Equal(metric.Curves[0].Dots.Count, us.Curves[0].Dots.Count);
        Assert.NotEqual(metric.XTicks.Select(t => t.Words), us.XTicks.Select(t => t.Words));
    }

    private static BenchInput Input(string code) => FreshMix.Inputs.Single(i => i.Code == code);

    private static CalculatorForm Form(UnitSystem units) =>
        new(FreshMix, Format(units));

    private static ShopFormat Format(UnitSystem units) =>
        new(CultureInfo.GetCultureInfo("en-GB"), units, new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), new HashSet<DateOnly>()));
}

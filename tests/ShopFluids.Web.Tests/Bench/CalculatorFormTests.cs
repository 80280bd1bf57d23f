using System.Globalization;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Web.Pages.Bench;
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

    private static BenchInput Input(string code) => FreshMix.Inputs.Single(i => i.Code == code);

    private static CalculatorForm Form(UnitSystem units) =>
        new(FreshMix, new ShopFormat(CultureInfo.GetCultureInfo("en-GB"), units, new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), new HashSet<DateOnly>())));
}

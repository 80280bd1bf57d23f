using System.Globalization;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Startup;

/// <summary>A line for every tenth of a load; written where it is reported, so that the lines keep their order.</summary>
internal sealed class DemoProgressLines(TextWriter output) : IProgress<DemoProgress>
{
    private const int StepPercent = 10;
    private int _next;

    public void Report(DemoProgress value)
    {
        if (value.Percent < _next)
        {
            return;
        }

        _next = value.Percent - (value.Percent % StepPercent) + StepPercent;
        output.WriteLine(string.Format(CultureInfo.InvariantCulture, Texts.Start_DemoProgress, value.Percent, value.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)));
    }
}

using ShopFluids.Core.Wording;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>Lines to sign on, at the end of a sheet's last page.</summary>
internal static class SignatureLines
{
    public static void Add(PageFlow flow)
    {
        const double room = 44;
        const double gap = 17;
        string[] labels = [Texts.Sheet_SignSupervisor, Texts.Sheet_SignSafety, Texts.Sheet_SignAuditor];
        flow.Need(room);
        var width = (flow.Width - (gap * (labels.Length - 1))) / labels.Length;
        var line = flow.Bottom - 16;
        for (var n = 0; n < labels.Length; n++)
        {
            var x = flow.Left + (n * (width + gap));
            flow.Page.Line(x, line, x + width, line, SheetStyle.Rule);
            flow.Page.Text(x, line + SheetStyle.Body + 2, labels[n], PrintFace.Regular, SheetStyle.Body);
        }

        flow.Y = flow.Bottom;
    }
}

using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board;

internal static class SumpServes
{
    /// <summary>The machine that a sump serves, or how many.</summary>
    public static string Served(this ShopFormat format, BoardRow row) => row.Machines.Count switch
    {
        0 => Texts.Board_NoMachine,
        1 => $"{row.Machines[0].Tag} {row.Machines[0].Name}",
        var count => format.Say(Texts.Board_Central, format.Count(count)),
    };
}

using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Pages.Setup.Overview;

namespace ShopFluids.Web.Pages.Setup.Start;

/// <summary>One step of the first set-up; whether it is done is told by what is there.</summary>
/// <param name="There">What is there already; empty when nothing is.</param>
public sealed record StartStep(string Title, string What, string There, bool IsDone, IReadOnlyList<SetupWay> Ways)
{
    /// <summary>The list of machines is typed in this step.</summary>
    public bool HasList { get; init; }

    public static IReadOnlyList<StartStep> All(DeskWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var (setup, format) = (words.Setup, words.Format);
        var sumps = setup.Sumps.Where(s => !s.IsRetired).ToList();
        var empty = sumps.Where(s => setup.OpenCharge(s.Id) is null).ToList();
        return
        [
            new(Texts.Start_Site, Texts.Start_SiteWhat, setup.Site is { } site ? $"{site.Name}, {site.TimeZoneId}" : "", setup.Site is not null, [new(Texts.Start_SiteWay, "setup/site")]),
            new(Texts.Start_Fluid, Texts.Start_FluidWhat, string.Join(", ", setup.Fluids.Select(f => f.Name)), setup.Fluids.Count > 0, [new(Texts.Setup_FluidAdd, "setup/fluids/new")]),
            new(
                Texts.Start_Machines,
                Texts.Start_MachinesWhat,
                sumps.Count == 0 ? "" : format.Say(Texts.Setup_SumpsThere, format.Count(sumps.Count), format.Count(setup.Machines.Count)),
                sumps.Count > 0,
                [new(Texts.Setup_SumpsDo, "setup/sumps/new")])
            {
                HasList = setup.Site is not null,
            },
            new(
                Texts.Start_Labels,
                Texts.Start_LabelsWhat,
                sumps.Count == 0 ? "" : format.Say(Texts.Start_Filled, format.Count(sumps.Count - empty.Count), format.Count(sumps.Count)),
                sumps.Count > 0 && empty.Count == 0,
                sumps.Count == 0 ? [] : [new(Texts.Start_LabelsWay, "sheets"), .. empty.Take(1).Select(s => new SetupWay(format.Say(Texts.Setup_FillThe, s.Tag), SetupAddress.Fill(s.Tag)))]),
        ];
    }
}

using ShopFluids.Core.Doses;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Sumps.Doses;

/// <summary>A sump that a dose goes into, as it is shown.</summary>
/// <param name="Page">Null where no dose can be noted.</param>
/// <param name="Draft">What is being typed; null without a page.</param>
/// <param name="Refusal">Why no dose can be noted; empty with a page.</param>
public sealed record DoseView(DeskWords Words, DosePage? Page, DoseDraft? Draft, string Refusal)
{
    /// <summary>Who looks at it may note what was given against its label, and strike out what was noted by mistake.</summary>
    public bool MaySupervise { get; init; }

    public DateTime NowUtc => Page?.NowUtc ?? default;

    public ShopFormat Format => Words.Format;

    public string VolumeHint => Page?.VolumeLitres is { } litres ? Format.Say(Texts.Dose_VolumeHint, Format.Volume(litres)) : Texts.Dose_VolumeUnknown;

    public IReadOnlyList<string> Cautions => DoseSentences.Cautions(Words.Setup.Site?.SafetySheetPlace);

    /// <summary>The charge's fluid as well as its machine: what is dosed must suit both.</summary>
    public string Lead => Page is { } page ? Format.Say(Texts.Dose_Lead, page.Place.Tag, FluidName(page)) : "";

    public string LabelMost(DoseRow dose) => dose.LabelMost is null ? Texts.Dose_NotSaid : DoseSentences.LabelMost(dose, Format);

    public string Reentry(DoseRow dose) => dose.ReentryUntilUtc is { } until ? Format.DayAndTime(until) : Texts.Dose_NotSaid;

    /// <summary>What was noted, right after it was.</summary>
    public string Said(NotedDose noted)
    {
        ArgumentNullException.ThrowIfNull(noted);
        var reached = DoseSentences.Strength(noted.Reached, noted.Measure, Format);
        return noted.ReentryUntilUtc is { } until ? Format.Say(Texts.Dose_SavedReentry, reached, Format.DayAndTime(until)) : Format.Say(Texts.Dose_Saved, reached);
    }

    private string FluidName(DosePage page) => Words.Setup.OpenCharge(page.Place.SumpId) is { } charge ? Words.Setup.Fluid(charge.FluidId).Name : "";
}

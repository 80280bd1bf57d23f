using System.Globalization;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Slides;

/// <summary>The dip slides of a sump, with what was refused.</summary>
/// <param name="NewId">For a slide that is started from this page, and for a reading.</param>
/// <param name="Notice">What was refused; null where nothing was.</param>
public sealed record SlideView(ShopVisit Visit, SlidesPage Page, Guid NewId, string? Notice = null)
{
    public const string IdName = "id";

    /// <summary>What was typed into a form that was refused.</summary>
    public TypedSlide Typed { get; init; } = new(null, "", "", "", "");

    private static readonly decimal[] PowersOfTen = [2, 3, 4, 5, 6, 7];

    public string Tag => Page.Place.Tag;

    /// <summary>What is picked from: the colonies on the slide beside the maker's chart, by powers of ten.</summary>
    public IEnumerable<(string Value, string Text)> Counts(string parameter) => PowersOfTen.Select(p => (
        p.ToString(CultureInfo.InvariantCulture),
        p == PowersOfTen[0] ? Visit.Say(Texts.Slide_NoColonies, Visit.Sentences.Value(parameter, p)) : Visit.Sentences.Value(parameter, p)));

    public string Kept(ListedSlide slide)
    {
        ArgumentNullException.ThrowIfNull(slide);
        return slide.Incubation == SlideIncubation.Incubator ? Texts.Slide_Incubator : Texts.Slide_Room;
    }

    /// <summary>From when to when it is read, or that it is late.</summary>
    public string Window(ListedSlide slide)
    {
        ArgumentNullException.ThrowIfNull(slide);
        return Page.NowUtc > slide.ReadUntilUtc ? Visit.Say(Texts.Slide_WindowPassed, Moment(slide.ReadUntilUtc))
            : Visit.Say(Texts.Slide_Window, Moment(slide.ReadFromUtc), Moment(slide.ReadUntilUtc));
    }

    /// <summary>What became of it.</summary>
    public string End(ListedSlide slide)
    {
        ArgumentNullException.ThrowIfNull(slide);
        return slide is { EndedHow: SlideEnd.Read, Value: { } value }
            ? Visit.Say(slide.IsReadLate ? Texts.Slide_ReadLate : Texts.Slide_Read, Moment(slide.DippedAtUtc), Visit.Sentences.Value(slide.Parameter, (decimal)value))
            : Visit.Say(Texts.Slide_Discarded, Moment(slide.DippedAtUtc), slide.EndReason is { Length: > 0 } reason ? reason : Texts.Slide_ChargeEnded);
    }

    public string Moment(DateTime atUtc) => Visit.Format.DayAndTime(atUtc);
}

/// <summary>The texts of a posted form; it comes back with them.</summary>
/// <param name="SlideId">The slide it is about; null for one to start.</param>
/// <param name="SavedAt">When it was saved on the tablet, as the form said; empty: just now.</param>
public sealed record TypedSlide(Guid? SlideId, string Incubation, string DippedAt, string Value, string Reason, string SavedAt = "", string SentAt = "")
{
    /// <summary>What was typed about a slide; null: about one to start.</summary>
    public TypedSlide? Of(Guid? slideId) => SlideId == slideId ? this : null;
}

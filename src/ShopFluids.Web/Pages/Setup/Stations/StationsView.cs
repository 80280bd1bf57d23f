using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Stations;

/// <summary>The stations in words.</summary>
public sealed record StationsView(DeskWords Words, IReadOnlyList<StationRow> Rows, DateTime NowUtc)
{
    /// <summary>A tablet's clock that is less than this off is right.</summary>
    private static readonly TimeSpan Right = TimeSpan.FromSeconds(30);

    public string State(StationRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row switch
        {
            { RevokedAtUtc: { } revoked } => Words.Format.Say(Texts.Setup_StationRevoked, Words.Format.DayAndTime(revoked)),
            { CodeUntilUtc: { } until } when until >= NowUtc => Words.Format.Say(Texts.Setup_StationWaits, Words.Format.Time(until)),
            { EnrolledAtUtc: { } enrolled } => Words.Format.Say(Texts.Setup_StationEnrolled, Words.Format.DayAndTime(enrolled)),
            _ => Texts.Setup_StationNoTablet,
        };
    }

    public string Seen(StationRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.SeenAtUtc is { } seen ? Words.Format.DayAndTime(seen) : Texts.Setup_Never;
    }

    public string Unsent(StationRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row switch
        {
            { SeenAtUtc: null } => "",
            { Unsent: 0 } => Texts.Setup_StationNoneUnsent,
            { OldestUnsentAtUtc: { } oldest } => Words.Format.Say(Texts.Setup_StationUnsentSince, Words.Format.Count(row.Unsent), Words.Format.DayAndTime(oldest), Length(NowUtc - oldest)),
            _ => Words.Format.Count(row.Unsent),
        };
    }

    public string ClockOf(StationRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.ClockAhead is not { } ahead ? ""
            : ahead.Duration() < Right ? Texts.Setup_StationClockRight
            : Words.Format.Say(ahead > TimeSpan.Zero ? Texts.Setup_StationClockFast : Texts.Setup_StationClockSlow, Length(ahead.Duration()));
    }

    public string RevokeAsk(StationRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Unsent > 0 ? Words.Format.Say(Texts.Setup_StationRevokeUnsent, Words.Format.Count(row.Unsent)) : Texts.Setup_StationRevokeAsk;
    }

    private string Length(TimeSpan length) => length < TimeSpan.FromMinutes(2) ? Words.Format.Say(Texts.Setup_StationSeconds, Words.Format.Count((int)length.TotalSeconds))
        : length < TimeSpan.FromHours(2) ? Words.Format.Say(Texts.Setup_StationMinutes, Words.Format.Count((int)length.TotalMinutes))
        : length < TimeSpan.FromDays(2) ? Words.Format.Say(Texts.Setup_StationHours, Words.Format.Count((int)length.TotalHours))
        : Words.Format.Say(Texts.Setup_StationDays, Words.Format.Count((int)Math.Min(length.TotalDays, 10_000)));
}

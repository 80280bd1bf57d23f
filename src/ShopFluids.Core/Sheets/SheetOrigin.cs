using System.Globalization;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Sheets;

/// <summary>Where the sheet comes from: what the foot of every page and the file's own metadata say.</summary>
/// <remarks>
/// <para>PrintedAtUtc: the instant of printing, for the file's metadata. Kind must be Utc.</para>
/// <para>PrintedAt: the same instant as the reader sees it, in shop time.</para>
/// <para>RecordEntry: number of the last record entry that the sheet takes in.</para>
/// <para>Fingerprint: SHA-256 of that entry as 64 hexadecimal digits; printing groups them.</para>
/// <para>Code: what the QR code says: the sheet's address with the fingerprint, or the fingerprint alone.</para>
/// <para>TimeZone: name of the shop's time zone, such as "Europe/Berlin".</para>
/// <para>Language: language tag of the texts, such as "en" or "de"; goes into the file's catalog.</para>
/// </remarks>
public sealed record SheetOrigin(
    DateTime PrintedAtUtc, string PrintedAt, string PrintedBy, string RecordEntry, string Fingerprint, string Code, string TimeZone, string Language)
{
    internal static SheetOrigin Of(ShopSetup setup, DateTime nowUtc, string printedBy, RecordHead head)
    {
        var format = setup.FormatFor();
        return new(
            nowUtc,
            format.DayAndTime(nowUtc),
            printedBy,
            format.Number((decimal)head.Sequence, 0),
            head.Hash,
            head.Hash,

            // By name: a sheet may hold rows from before and after a change of the clock.
            setup.Calendar.Zone.Id,
            CultureInfo.CurrentUICulture.TwoLetterISOLanguageName);
    }
}

using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Printing;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>The period and the paper that an address asks for.</summary>
internal sealed record SheetAsk(DateOnly? From, DateOnly? To, PaperSize Paper)
{
    public const string Letter = "letter";
    public const string A4 = "a4";
    private const string MonthFormat = "yyyy-MM";

    /// <param name="from">The first day; null leaves it to the sheet.</param>
    /// <param name="to">The last day; null leaves it to the sheet.</param>
    /// <param name="paper">a4, letter, or null for A4.</param>
    /// <param name="ask">What was asked for.</param>
    /// <returns>What is wrong with it, in a sentence; null when nothing is.</returns>
    public static string? Read(string? from, string? to, string? paper, out SheetAsk ask)
    {
        ask = new(null, null, PaperSize.A4);
        if (!TryReadDay(from, out var first) || !TryReadDay(to, out var last))
        {
            return Texts.Sheet_DayNotReadable;
        }

        if (!TryReadPaper(paper, out var size))
        {
            return Texts.Sheet_PaperUnknown;
        }

        ask = new(first, last, size);
        return null;
    }

    public static bool TryReadPaper(string? text, out PaperSize paper)
    {
        paper = string.Equals(text, Letter, StringComparison.OrdinalIgnoreCase) ? PaperSize.Letter : PaperSize.A4;
        return string.IsNullOrEmpty(text) || paper == PaperSize.Letter || string.Equals(text, A4, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>A month as addresses and browsers write it, as its first day; nothing is no month and no fault.</summary>
    public static bool TryReadMonth(string? text, out DateOnly? month)
    {
        var isRead = DateOnly.TryParseExact(text, MonthFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var read);
        month = isRead ? read : null;
        return isRead || string.IsNullOrEmpty(text);
    }

    public static string WriteMonth(DateOnly month) => month.ToString(MonthFormat, CultureInfo.InvariantCulture);

    // A day as addresses write it; nothing is no day and no fault.
    private static bool TryReadDay(string? text, out DateOnly? day)
    {
        var isRead = DayInput.TryRead(text, out var read);
        day = isRead ? read : null;
        return isRead || string.IsNullOrEmpty(text);
    }
}

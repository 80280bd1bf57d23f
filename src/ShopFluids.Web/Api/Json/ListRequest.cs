using System.Globalization;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>What the address of a list asks for.</summary>
internal sealed class ListRequest(HttpRequest request, Sentences say)
{
    private readonly JsonFields _fields = new(say);

    public IReadOnlyList<ApiField> Faults => _fields.Faults;

    /// <summary>A day, which means its beginning in shop time, or an instant with its offset.</summary>
    public DateTime? From(string name) => Instant(name, daysAfter: 0);

    /// <summary>The end of a span: a day, which belongs to it whole as on the sheets, or an instant with its offset, which does not.</summary>
    public DateTime? Before(string name) => Instant(name, daysAfter: 1);

    private DateTime? Instant(string name, int daysAfter)
    {
        if (Value(name) is not { } text)
        {
            return null;
        }

        // In an address a plus sign stands for a blank.
        if (InstantText.TryRead(text.Replace(' ', '+'), out var instant))
        {
            return instant;
        }

        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day.DayNumber + daysAfter > DateOnly.MaxValue.DayNumber ? null : say.Format.Calendar.StartOf(day.AddDays(daysAfter));
        }

        _fields.Refuse(name, "notAnInstant", Texts.Api_NotAnInstant);
        return null;
    }

    public ListPlace? Place()
    {
        if (Value("cursor") is not { } text)
        {
            return null;
        }

        var place = ListPlace.TryRead(text);
        if (place is null)
        {
            _fields.Refuse("cursor", "notACursor", Texts.Api_NotACursor);
        }

        return place;
    }

    public int Limit()
    {
        if (Value("limit") is not { } text)
        {
            return ListPlace.UsualItems;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var limit) && limit is >= 1 and <= ListPlace.MostItems)
        {
            return limit;
        }

        _fields.Refuse("limit", "notALimit", string.Format(CultureInfo.InvariantCulture, Texts.Api_NotALimit, ListPlace.MostItems));
        return ListPlace.UsualItems;
    }

    /// <summary>One of the choices; the first when nothing is asked.</summary>
    public string Choice(string name, params string[] choices)
    {
        var text = Value(name) ?? choices[0];
        if (!choices.Contains(text))
        {
            _fields.Refuse(name, "unknownChoice", string.Format(CultureInfo.InvariantCulture, Texts.Api_UnknownState, string.Join(", ", choices)));
        }

        return text;
    }

    private string? Value(string name) => request.Query[name].FirstOrDefault() is { Length: > 0 } text ? text : null;
}

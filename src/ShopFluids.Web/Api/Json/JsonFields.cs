using System.Globalization;
using System.Text.Json;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>
/// Reads fields out of an object and collects what is wrong with them, so that all of it is answered at once. Fields that it
/// is not asked for are let pass.
/// </summary>
internal sealed class JsonFields(Sentences say)
{
    private readonly List<ApiField> _faults = [];

    public IReadOnlyList<ApiField> Faults => _faults;

    public void Refuse(string field, FieldProblem problem, string? detail = null) =>
        _faults.Add(new ApiField(field, Codes.Of(problem), say.Field(new FieldError(field, problem, Detail: detail))));

    /// <summary>Refuses with the range that is accepted.</summary>
    public void Refuse(FieldError error) =>
        _faults.Add(new ApiField(error.Field, Codes.Of(error.Problem), say.Field(error), error.Value, error.Low, error.High, error.Unit is { Length: > 0 } unit ? unit : null));

    /// <summary>A text; null when it is missing or null. A text with signs that no keyboard makes is refused.</summary>
    public string? Text(JsonElement parent, string name, string field)
    {
        if (!parent.TryGetProperty(name, out var value) || value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.String && ReadText(value) is { } text)
        {
            return text;
        }

        Refuse(field, "notAText", Texts.Api_NotAText);
        return null;
    }

    /// <summary>A list of texts; null, and refused, where it is anything else.</summary>
    public IReadOnlyList<string>? TextList(JsonElement parent, string name, string field)
    {
        if (!parent.TryGetProperty(name, out var list) || list.ValueKind != JsonValueKind.Array)
        {
            Refuse(field, FieldProblem.Missing);
            return null;
        }

        var texts = list.EnumerateArray().Select(t => t.ValueKind == JsonValueKind.String ? ReadText(t) : null).ToList();
        if (texts.Contains(null))
        {
            Refuse(field, "notAText", Texts.Api_NotAText);
            return null;
        }

        return [.. texts.OfType<string>()];
    }

    public string RequiredText(JsonElement parent, string name, string field)
    {
        var faults = _faults.Count;
        var text = Text(parent, name, field);
        if (string.IsNullOrWhiteSpace(text) && _faults.Count == faults)
        {
            Refuse(field, FieldProblem.Missing);
        }

        return text ?? "";
    }

    public Guid? RequiredId(JsonElement parent, string name, string field)
    {
        RequireGiven(parent, name, field);
        return Id(parent, name, field);
    }

    /// <inheritdoc cref="Instant"/>
    public DateTime? RequiredInstant(JsonElement parent, string name, string field)
    {
        RequireGiven(parent, name, field);
        return Instant(parent, name, field);
    }

    public void RequireGiven(JsonElement parent, string name, string field)
    {
        if (!parent.TryGetProperty(name, out var value) || value.ValueKind == JsonValueKind.Null)
        {
            Refuse(field, FieldProblem.Missing);
        }
    }

    public Guid? Id(JsonElement parent, string name, string field)
    {
        if (Text(parent, name, field) is not { } text)
        {
            return null;
        }

        if (Guid.TryParse(text, out var id) && id != Guid.Empty)
        {
            return id;
        }

        Refuse(field, "notAnId", Texts.Api_NotAnId);
        return null;
    }

    public bool Flag(JsonElement parent, string name, string field)
    {
        if (!parent.TryGetProperty(name, out var value) || value.ValueKind is JsonValueKind.Null or JsonValueKind.False)
        {
            return false;
        }

        if (value.ValueKind != JsonValueKind.True)
        {
            Refuse(field, "notAFlag", Texts.Api_NotAFlag);
        }

        return true;
    }

    /// <summary>A number, or a text with one: 8.9, "8.9" and "8,9" are the same. "1,200" may be thousands and is refused; a point is JSON's own and never is.</summary>
    /// <param name="range">What is accepted here, to be named when there is no number.</param>
    public decimal? Number(JsonElement parent, string name, string field, AcceptedRange? range = null)
    {
        if (!parent.TryGetProperty(name, out var value) || value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        var text = value.ValueKind == JsonValueKind.String ? ReadText(value) ?? "" : value.GetRawText();
        decimal number = 0;
        var isNumber = value.ValueKind == JsonValueKind.Number ? value.TryGetDecimal(out number) : value.ValueKind == JsonValueKind.String && NumberInput.TryRead(text, out number);
        var mayBeThousands = value.ValueKind == JsonValueKind.String && text.Contains(',', StringComparison.Ordinal) && QuantityInput.IsAmbiguous(text);
        if (isNumber && !mayBeThousands && Math.Abs(number) < Largest)
        {
            return number;
        }

        Refuse(isNumber && !mayBeThousands && range is not null
            ? new FieldError(field, FieldProblem.OutOfRange, number, range.Low, range.High, range.Unit)
            : new FieldError(field, mayBeThousands ? FieldProblem.MaybeThousands : FieldProblem.NotANumber, null, range?.Low, range?.High, range?.Unit, text.Length > ShownLength ? text[..ShownLength] : text));
        return null;
    }

    /// <summary>An instant with its offset: without one nobody knows which moment is meant.</summary>
    public DateTime? Instant(JsonElement parent, string name, string field)
    {
        if (Text(parent, name, field) is not { } text)
        {
            return null;
        }

        if (InstantText.TryRead(text, out var instant))
        {
            return instant;
        }

        Refuse(field, "notAnInstant", Texts.Api_NotAnInstant);
        return null;
    }

    /// <summary>A day of the calendar, such as 2026-03-02.</summary>
    public DateOnly? RequiredDay(JsonElement parent, string name, string field)
    {
        RequireGiven(parent, name, field);
        if (Text(parent, name, field) is not { } text)
        {
            return null;
        }

        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        Refuse(field, "notADay", Texts.Api_NotADay);
        return null;
    }

    /// <summary>A whole number within a range; null when it is missing or refused.</summary>
    public int? Whole(JsonElement parent, string name, string field, AcceptedRange range)
    {
        ArgumentNullException.ThrowIfNull(range);
        if (Number(parent, name, field, range) is not { } number)
        {
            return null;
        }

        if (number != decimal.Truncate(number))
        {
            Refuse(new FieldError(field, FieldProblem.NotWhole, number, range.Low, range.High));
            return null;
        }

        if (number < range.Low || number > range.High)
        {
            Refuse(new FieldError(field, FieldProblem.OutOfRange, number, range.Low, range.High));
            return null;
        }

        return (int)number;
    }

    /// <summary>The objects of a list; none when it is missing, and refused where it is anything else.</summary>
    public IReadOnlyList<JsonElement> ObjectList(JsonElement parent, string name, string field)
    {
        if (!parent.TryGetProperty(name, out var list) || list.ValueKind == JsonValueKind.Null)
        {
            return [];
        }

        if (list.ValueKind == JsonValueKind.Array && list.EnumerateArray().All(i => i.ValueKind == JsonValueKind.Object))
        {
            return [.. list.EnumerateArray()];
        }

        Refuse(field, "notAList", Texts.Api_NotAList);
        return [];
    }

    public void Refuse(string field, string problem, string message) =>
        _faults.Add(new ApiField(field, problem, string.Format(CultureInfo.InvariantCulture, "{0}: {1}", say.FieldName(field), message)));

    // What the columns hold: 18 digits, 6 of them decimals.
    private const decimal Largest = 1_000_000_000_000m;
    private const int ShownLength = 40;

    private static string? ReadText(JsonElement value)
    {
        try
        {
            // No control signs but those of ordinary text: one of the engines cannot keep a zero.
            var text = value.GetString() ?? "";
            return text.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t')) ? null : text;
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair.
            return null;
        }
    }
}

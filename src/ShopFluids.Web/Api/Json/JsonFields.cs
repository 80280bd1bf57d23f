using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>
/// Reads fields out of an object and collects what is wrong with them, so that all of it is answered at once. Fields that it
/// is not asked for are let pass.
/// </summary>
internal sealed partial class JsonFields(Sentences say)
{
    private readonly List<ApiField> _faults = [];

    public IReadOnlyList<ApiField> Faults => _faults;

    public void Refuse(string field, FieldProblem problem, string? detail = null) =>
        _faults.Add(new ApiField(field, Codes.Of(problem), say.Field(new FieldError(field, problem, Detail: detail))));

    private void Refuse(FieldError error) =>
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

    /// <summary>A number, or a text with one: 8.9, "8.9" and "8,9" are the same.</summary>
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
        if (isNumber && Math.Abs(number) < Largest)
        {
            return number;
        }

        if (isNumber && range is not null)
        {
            Refuse(new FieldError(field, FieldProblem.OutOfRange, number, range.Low, range.High, range.Unit));
            return null;
        }

        Refuse(new FieldError(field, FieldProblem.NotANumber, null, range?.Low, range?.High, range?.Unit, text.Length > ShownLength ? text[..ShownLength] : text));
        return null;
    }

    /// <summary>An instant with its offset: without one nobody knows which moment is meant.</summary>
    public DateTime? Instant(JsonElement parent, string name, string field)
    {
        if (Text(parent, name, field) is not { } text)
        {
            return null;
        }

        if (TryReadInstant(text, out var instant))
        {
            return instant;
        }

        Refuse(field, "notAnInstant", Texts.Api_NotAnInstant);
        return null;
    }

    public void Refuse(string field, string problem, string message) =>
        _faults.Add(new ApiField(field, problem, string.Format(CultureInfo.InvariantCulture, "{0}: {1}", say.FieldName(field), message)));

    /// <summary>ISO 8601 and nothing else: what a program sends is never guessed at.</summary>
    public static bool TryReadInstant(string text, out DateTime instantUtc)
    {
        instantUtc = default;
        if (!InstantShape().IsMatch(text) || !DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant))
        {
            return false;
        }

        instantUtc = instant.UtcDateTime;
        return true;
    }

    [GeneratedRegex(@"^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,12})?)?([Zz]|[+-][0-9]{2}:[0-9]{2})\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex InstantShape();

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

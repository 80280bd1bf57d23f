using System.Globalization;
using System.Text.Json;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Shop.CleanOuts;

namespace ShopFluids.Web.Api.CleanOuts;

/// <summary>Reads a <see cref="CleanOutStepRequest"/>: of each step its own fields.</summary>
internal static class CleanOutStepJson
{
    private const string Confirmed = "confirmed";
    private const string Waste = "waste";
    private const string Draws = "draws";

    /// <summary>The field of a step that is said in words.</summary>
    public static string TextFieldOf(CleanOutStepKind kind) => kind switch
    {
        CleanOutStepKind.Carrier => CleanOutFields.Carrier,
        CleanOutStepKind.Inspect => CleanOutFields.Seen,
        _ => CleanOutFields.Note,
    };

    /// <summary>What was noted; what is wrong is among the faults.</summary>
    /// <param name="findLot">The lot of a number; null when there is none.</param>
    public static async Task<CleanOutNote> ReadAsync(JsonElement body, CleanOutStepKind kind, JsonFields fields, Func<string, Task<Guid?>> findLot)
    {
        if (fields.Flag(body, "leftOut", "leftOut"))
        {
            return new(Text: fields.RequiredText(body, CleanOutFields.Reason, CleanOutFields.Reason), IsLeftOut: true);
        }

        var text = TextFieldOf(kind);
        var note = new CleanOutNote(Confirmed: ReadConfirmed(body, kind, fields), Text: fields.Text(body, text, text) ?? "");
        return kind switch
        {
            CleanOutStepKind.Plan => note with { Choice = ReadChoice(body, fields) },
            CleanOutStepKind.Cleaner => note with { CleanerLitres = Number(CleanOutFields.CleanerLitres), Hours = Number(CleanOutFields.Hours), ShortReason = fields.Text(body, CleanOutFields.ShortReason, CleanOutFields.ShortReason) },
            CleanOutStepKind.Carrier => note with { HalogensMgPerKg = Number(CleanOutFields.Halogens) },
            CleanOutStepKind.Drain => note with { Waste = ReadWaste(body, fields), SludgeMm = Number(CleanOutFields.SludgeMm) },
            CleanOutStepKind.Wipe or CleanOutStepKind.Rinse => note with { Waste = ReadWaste(body, fields) },
            CleanOutStepKind.Refill => note with
            {
                WaterLitres = Number(CleanOutFields.Water) ?? 0,
                Draws = await ReadDrawsAsync(body, fields, findLot),
                OverrideReason = fields.Text(body, CleanOutFields.Override, CleanOutFields.Override),
            },
            _ => note,
        };

        decimal? Number(string name) => fields.Number(body, name, name);
    }

    /// <summary>What the command refused, at the fields of the body.</summary>
    public static IReadOnlyList<ApiField> OfBody(IEnumerable<FieldError> errors, Sentences say) => [.. errors.Select(e => OfBody(e, say))];

    private static ApiField OfBody(FieldError error, Sentences say)
    {
        if (Enum.GetValues<CleanOutStepKind>().Any(k => CleanOutConfirmations.Of(k).Contains(error.Field, StringComparer.Ordinal)))
        {
            return new(Confirmed, Codes.Of(error.Problem), say.Format.Say(Texts.Api_NotConfirmed, error.Field, CleanOutSentences.Confirmation(error.Field)));
        }

        var field = Problems.Field(error, say);
        return Rows().FirstOrDefault(r => r.Command == error.Field) is { Body: { } path } ? field with { Field = path } : field;
    }

    // The command names the boxes of its page one by one.
    private static IEnumerable<(string Command, string Body)> Rows()
    {
        for (var row = 0; row < CleanOutInput.WasteRows; row++)
        {
            yield return (CleanOutFields.WasteCode(row), Place(Waste, row, "code"));
            yield return (CleanOutFields.WasteLitres(row), Place(Waste, row, "litres"));
        }

        for (var row = 0; row < CleanOutInput.LotRows; row++)
        {
            yield return (CleanOutFields.Lot(row), Place(Draws, row, "lot"));
            yield return (CleanOutFields.Concentrate(row), Place(Draws, row, "litres"));
        }
    }

    private static List<string>? ReadConfirmed(JsonElement body, CleanOutStepKind kind, JsonFields fields)
    {
        var known = CleanOutConfirmations.Of(kind);
        if (known.Count == 0 || !body.TryGetProperty(Confirmed, out var list) || list.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        var given = fields.TextList(body, Confirmed, Confirmed) ?? [];
        if (given.Any(g => !known.Contains(g, StringComparer.Ordinal)))
        {
            fields.Refuse(Confirmed, FieldProblem.UnknownChoice);
        }

        // In the order of the step, so that the same said in another order is the same.
        return [.. known.Where(k => given.Contains(k, StringComparer.Ordinal))];
    }

    private static CleanOutChoice ReadChoice(JsonElement body, JsonFields fields)
    {
        fields.RequireGiven(body, CleanOutFields.Rinses, CleanOutFields.Rinses);
        return new(
            Needed(CleanOutFields.Content),
            Needed(CleanOutFields.Heel),
            Needed(CleanOutFields.CleanerPercent),
            Needed(CleanOutFields.CirculationHours),
            fields.Whole(body, CleanOutFields.Rinses, CleanOutFields.Rinses, new AcceptedRange(0, CleanOutChecks.MaximumRinses, "")) ?? 0,
            Needed(CleanOutFields.RinseLitres));

        decimal Needed(string name)
        {
            fields.RequireGiven(body, name, name);
            return fields.Number(body, name, name) ?? 0;
        }
    }

    private static List<WasteAmount> ReadWaste(JsonElement body, JsonFields fields)
    {
        var waste = new List<WasteAmount>();
        foreach (var (item, row) in Items(body, Waste, CleanOutInput.WasteRows, fields))
        {
            waste.Add(new(fields.RequiredText(item, "code", Place(Waste, row, "code")), Litres(item, Place(Waste, row, "litres"), fields)));
        }

        return waste;
    }

    private static async Task<List<LotDrawn>> ReadDrawsAsync(JsonElement body, JsonFields fields, Func<string, Task<Guid?>> findLot)
    {
        var draws = new List<LotDrawn>();
        foreach (var (item, row) in Items(body, Draws, CleanOutInput.LotRows, fields))
        {
            var number = fields.RequiredText(item, "lot", Place(Draws, row, "lot"));
            var lot = string.IsNullOrWhiteSpace(number) ? null : await findLot(number);
            if (lot is null && !string.IsNullOrWhiteSpace(number))
            {
                fields.Refuse(Place(Draws, row, "lot"), FieldProblem.UnknownChoice);
            }

            draws.Add(new(lot, Litres(item, Place(Draws, row, "litres"), fields)));
        }

        return draws;
    }

    // As many as the page has room for: what is noted here can be put right there.
    private static IEnumerable<(JsonElement Item, int Row)> Items(JsonElement body, string name, int most, JsonFields fields)
    {
        var items = fields.ObjectList(body, name, name);
        if (items.Count > most)
        {
            fields.Refuse(new FieldError(name, FieldProblem.WrongCount, items.Count, 0, most));
        }

        return items.Take(most).Select((item, row) => (item, row));
    }

    // A row of nothing is no row, and would shift the places of those after it.
    private static decimal Litres(JsonElement item, string field, JsonFields fields)
    {
        fields.RequireGiven(item, "litres", field);
        var litres = fields.Number(item, "litres", field);
        if (litres is 0)
        {
            fields.Refuse(new FieldError(field, FieldProblem.OutOfRange, litres, LeastLitres, CleanOutChecks.MaximumLitres, "L"));
        }

        return litres ?? 0;
    }

    private const decimal LeastLitres = 0.001m;

    private static string Place(string list, int row, string name) => string.Create(CultureInfo.InvariantCulture, $"{list}[{row}].{name}");
}

using System.Text.Json;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Work;

/// <summary>What was found when work was done: the number that this kind of work asks for, and a note. All may be left out.</summary>
/// <param name="OilLitres">Of skimming: oil taken off, L.</param>
/// <param name="FilterState">Of a change of filter: clean, half, full or blocked.</param>
/// <param name="SludgeMm">Refused here: a draining is not ticked off, the depth of its sludge is noted at its step.</param>
/// <param name="CirculatedMinutes">Of circulating, min.</param>
internal sealed record FoundRequest(
    decimal? OilLitres = null, string? FilterState = null, decimal? SludgeMm = null, decimal? CirculatedMinutes = null, string? FoundNote = null);

/// <param name="What">oilLitres, filterState, sludgeMm or circulatedMinutes; null where there is only a note.</param>
/// <param name="State">Of a filter: clean, half, full or blocked.</param>
internal sealed record FoundAnswer(string? What, decimal? Value, string? State, string Note, string Text)
{
    public static FoundAnswer? Of(WorkFind? found, Sentences say) => found is null ? null : new(
        found.What.Length == 0 ? null : found.What,
        found.What == FindNames.FilterState ? null : found.Value,
        found.What == FindNames.FilterState && found.Value is { } grade ? Codes.Of((FilterState)(short)grade) : null,
        found.Note,
        say.Found(found));
}

/// <summary>Reads a <see cref="FoundRequest"/>.</summary>
internal static class FoundJson
{
    private static readonly string[] Numbers = [FindNames.OilLitres, FindNames.SludgeMm, FindNames.CirculatedMinutes];

    /// <returns>What was found, or what is wrong with which fields.</returns>
    public static (TypedFind? Find, IReadOnlyList<ApiField> Faults) Read(JsonElement body, Sentences say)
    {
        var fields = new JsonFields(say);
        var given = new List<(string What, decimal Value)>();
        foreach (var name in Numbers)
        {
            if (fields.Number(body, name, name) is { } number)
            {
                given.Add((name, number));
            }
        }

        if (fields.Text(body, FindNames.FilterState, FindNames.FilterState) is { } state)
        {
            if (Enum.GetValues<FilterState>().Where(s => Codes.Of(s) == state).Select(s => (FilterState?)s).FirstOrDefault() is { } known)
            {
                given.Add((FindNames.FilterState, (decimal)known));
            }
            else
            {
                fields.Refuse(FindNames.FilterState, FieldProblem.UnknownChoice);
            }
        }

        // No work asks for two numbers.
        foreach (var (what, _) in given.Skip(1))
        {
            fields.Refuse(what, FieldProblem.NotAskedHere);
        }

        var note = fields.Text(body, FindNames.Note, FindNames.Note);
        return fields.Faults.Count > 0 ? (null, fields.Faults) : (given.Count > 0 ? new(given[0].What, given[0].Value, note) : new(null, null, note), []);
    }
}

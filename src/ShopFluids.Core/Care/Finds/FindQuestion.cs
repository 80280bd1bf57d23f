using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;

namespace ShopFluids.Core.Care.Finds;

/// <summary>The number that a kind of work asks for when it is done.</summary>
/// <param name="What">As in <see cref="FindNames"/>.</param>
/// <param name="Unit">L, mm or min; empty for a grade.</param>
/// <param name="High">The largest that is accepted; the least is 0. More is a slip of the finger. Common practice, no source.</param>
/// <param name="IsGrade">One of <see cref="FilterState"/>.</param>
public sealed record FindQuestion(string What, string Unit, decimal High, bool IsGrade)
{
    public const int MaximumNoteLength = 500;

    private static readonly FindQuestion Oil = new(FindNames.OilLitres, "L", 1000, IsGrade: false);
    private static readonly FindQuestion Filter = new(FindNames.FilterState, "", (decimal)FilterState.Blocked, IsGrade: true);
    /// <summary>Of a draining.</summary>
    public static readonly FindQuestion Sludge = new(FindNames.SludgeMm, "mm", 2000, IsGrade: false);
    private static readonly FindQuestion Circulated = new(FindNames.CirculatedMinutes, "min", 10_080, IsGrade: false);

    /// <summary>Null where the work asks for no number.</summary>
    public static FindQuestion? Of(TaskKind kind) => kind switch
    {
        TaskKind.Skim => Oil,
        TaskKind.ChangeFilter => Filter,
        TaskKind.DrainClean => Sludge,
        TaskKind.Circulate => Circulated,
        _ => null,
    };

    /// <summary>Whether pages ask what was found, by number or in words, as the work is ticked off. Of a draining it is said at its step.</summary>
    public static bool IsAsked(TaskKind kind) => EndTaskHandler.IsTickedOff(kind) && (kind == TaskKind.Inspect || Of(kind) is not null);

    /// <summary>Names what is wrong with a find; a note may go with any work.</summary>
    internal static void Check(List<FieldError> errors, TaskKind kind, TypedFind find, Sump? sump)
    {
        TextChecks.Check(errors, FindNames.Note, find.Note, MaximumNoteLength, isRequired: false);
        if (find.Value is not { } value)
        {
            return;
        }

        var asked = Of(kind);
        if (asked is null || asked.What != find.What)
        {
            errors.Add(new(find.What ?? FindNames.Note, FieldProblem.NotAskedHere));
        }
        else if (asked.IsGrade && (value != decimal.Truncate(value) || value < 0 || value > asked.High))
        {
            errors.Add(new(asked.What, FieldProblem.UnknownChoice));
        }
        else if (asked.MostIn(sump) is var most && (value < 0 || value > most))
        {
            errors.Add(new(asked.What, FieldProblem.OutOfRange, value, 0, most, asked.Unit));
        }
    }

    /// <summary>The largest that is accepted of a sump: no more oil comes off than it holds, and no sludge stands in it higher than its brim.</summary>
    /// <param name="sump">Null where it is not known.</param>
    public decimal MostIn(Sump? sump) => (What, sump) switch
    {
        (FindNames.OilLitres, { } known) => Math.Min(High, Math.Floor((decimal)known.Geometry.BrimLitres)),
        (FindNames.SludgeMm, { } known) => Math.Min(High, known.Shape.BrimMm),
        _ => High,
    };

    /// <summary>The find as it is stored; null when nothing was said.</summary>
    internal static WorkFind? Kept(TypedFind? find) =>
        find is null || find.IsEmpty ? null : new(find.Value is null ? "" : find.What ?? "", find.Value is { } value ? decimal.Round(value, 6) : null, find.Note?.Trim() ?? "");
}

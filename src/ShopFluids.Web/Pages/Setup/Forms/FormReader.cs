using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>
/// Reads what was typed and collects every field that cannot be read, so that a person sees all faults at once. Ranges are the
/// commands' to check.
/// </summary>
public sealed class FormReader(ShopFormat format)
{
    private readonly List<(string Field, FieldError Error)> _faults = [];

    public IReadOnlyList<(string Field, FieldError Error)> Faults => _faults;

    public bool HasFaults => _faults.Count > 0;

    public UnitSystem Units => format.Units;

    public void Refuse(string field, FieldProblem problem, string? detail = null) => _faults.Add((field, new FieldError(field, problem, Detail: detail)));

    public void Refuse(FieldError error)
    {
        ArgumentNullException.ThrowIfNull(error);
        _faults.Add((error.Field, error));
    }

    public string Text(string field, string typed)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            Refuse(field, FieldProblem.Missing);
        }

        return typed.Trim();
    }

    public decimal Number(string field, NumberBox box)
    {
        if (box.IsEmpty)
        {
            Refuse(field, FieldProblem.Missing);
            return 0;
        }

        return OptionalNumber(field, box) ?? 0;
    }

    public decimal? OptionalNumber(string field, NumberBox box)
    {
        if (box.IsEmpty)
        {
            return null;
        }

        if (box.Value(format.Units) is { } value)
        {
            return value;
        }

        Refuse(field, FieldProblem.NotANumber, box.Text.Trim());
        return null;
    }

    public int WholeNumber(string field, NumberBox box)
    {
        var value = Number(field, box);
        if (value == decimal.Truncate(value) && Math.Abs(value) <= int.MaxValue)
        {
            return (int)value;
        }

        Refuse(field, FieldProblem.NotANumber, box.Text.Trim());
        return 0;
    }

    public Guid Id(string field, string chosen)
    {
        if (Guid.TryParse(chosen, out var id))
        {
            return id;
        }

        Refuse(field, FieldProblem.Missing);
        return Guid.Empty;
    }

    public T Choice<T>(string field, string chosen)
        where T : struct, Enum
    {
        if (Enum.TryParse<T>(chosen, out var value) && Enum.IsDefined(value))
        {
            return value;
        }

        Refuse(field, FieldProblem.Missing);
        return default;
    }

    public DateOnly Day(string field, string typed)
    {
        if (DayInput.TryRead(typed, out var day))
        {
            return day;
        }

        Refuse(field, typed.Length == 0 ? FieldProblem.Missing : FieldProblem.NotATime);
        return default;
    }

    public DateTime Time(string field, string typed)
    {
        if (DayInput.TryReadTime(typed, format.Calendar, out var instantUtc))
        {
            return instantUtc;
        }

        Refuse(field, typed.Length == 0 ? FieldProblem.Missing : FieldProblem.NotATime);
        return default;
    }
}

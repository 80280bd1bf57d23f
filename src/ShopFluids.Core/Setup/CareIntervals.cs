using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Course;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Setup;

/// <summary>What the interval of a step needs, by its basis.</summary>
internal static class CareIntervals
{
    private const int MaximumMonths = 120;

    // Nearly six years of running day and night. Common practice, no source.
    private const int MaximumHours = 50_000;

    // Whoever accepts more than every other test out of limits need not test. Common practice, no source.
    private const decimal LeastRiskPercent = 0.1m;
    private const decimal MostRiskPercent = 50;
    private const int MaximumRiskDays = 366;

    // The least that can be told apart in what is found: a drop.
    private const decimal LeastWanted = 0.001m;

    public static void Check(List<FieldError> errors, AddCareStep command, ShopSetup setup, Sump sump)
    {
        switch (command.Basis)
        {
            case IntervalBasis.CalendarAnchored or IntervalBasis.FromLastDone when command.IntervalMonths != 0:
                SetupFields.Range(errors, "intervalMonths", command.IntervalMonths, 1, MaximumMonths, "months");
                return;
            case IntervalBasis.RunningHours:
                CheckHours(errors, command, setup, sump);
                break;
            case IntervalBasis.Condition:
                SetupFields.Range(errors, "intervalDays", command.IntervalDays, 1, RunningHours.MaximumDays, "d");
                CheckCondition(errors, command);
                break;
            case IntervalBasis.Risk:
                CheckRisk(errors, command);
                break;
            default:
                SetupFields.Range(errors, "intervalDays", command.IntervalDays, 1, RunningHours.MaximumDays, "d");
                break;
        }

        if (command.IntervalMonths != 0)
        {
            errors.Add(new("intervalMonths", FieldProblem.NotAskedHere));
        }

        if (command.EventParameter.Length > 0 && setup.FindParameter(command.EventParameter) is null)
        {
            errors.Add(new("eventParameter", FieldProblem.UnknownParameter, Detail: command.EventParameter));
        }
    }

    private static void CheckHours(List<FieldError> errors, AddCareStep command, ShopSetup setup, Sump sump)
    {
        SetupFields.Range(errors, "intervalHours", command.IntervalHours, 1, MaximumHours, "h");
        if (setup.WeeklyHoursOf(sump.Id) == 0)
        {
            errors.Add(new("basis", FieldProblem.NoRunningHours));
        }
    }

    private static void CheckCondition(List<FieldError> errors, AddCareStep command)
    {
        if (FindQuestion.Of(command.Kind) is not { } asked)
        {
            errors.Add(new("basis", FieldProblem.NothingToFind));
            return;
        }

        CheckBounds(errors, command);
        if (asked.IsGrade && (command.WantedFind != decimal.Truncate(command.WantedFind) || command.WantedFind < 1 || command.WantedFind > asked.High))
        {
            errors.Add(new("wantedFind", FieldProblem.UnknownChoice));
        }
        else
        {
            SetupFields.Range(errors, "wantedFind", command.WantedFind, asked.IsGrade ? 1 : LeastWanted, asked.High, asked.Unit.Length == 0 ? null : asked.Unit);
        }
    }

    private static void CheckRisk(List<FieldError> errors, AddCareStep command)
    {
        if (command.Kind != TaskKind.Test)
        {
            errors.Add(new("basis", FieldProblem.NothingToForecast));
            return;
        }

        // The usual interval, where too little was read to tell a risk by, lies between the others.
        if (CheckBounds(errors, command))
        {
            SetupFields.Range(errors, "intervalDays", command.IntervalDays, command.FloorDays, command.CeilingDays, "d");
        }

        SetupFields.Range(errors, "acceptedRiskPercent", command.AcceptedRiskPercent, LeastRiskPercent, MostRiskPercent, "%");
        if (command.Parameters.Count > 0 && !command.Parameters.Any(p => FollowedParameters.Codes.Contains(p, StringComparer.Ordinal)))
        {
            errors.Add(new("parameters", FieldProblem.NothingToForecast));
        }
    }

    private static bool CheckBounds(List<FieldError> errors, AddCareStep command)
    {
        var before = errors.Count;
        SetupFields.Range(errors, "floorDays", command.FloorDays, 1, RunningHours.MaximumDays, "d");
        if (errors.Count == before)
        {
            SetupFields.Range(errors, "ceilingDays", command.CeilingDays, command.FloorDays, LongestOf(command), "d");
        }

        return errors.Count == before;
    }

    // A forecast looks no farther ahead.
    private static int LongestOf(AddCareStep command) => command.Basis == IntervalBasis.Risk ? MaximumRiskDays : RunningHours.MaximumDays;
}

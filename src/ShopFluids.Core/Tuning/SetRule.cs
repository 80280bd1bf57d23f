using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Core.Tuning;

/// <summary>
/// Sets a rule for the whole shop, a fluid or a sump, from now on. What was judged before stays as it was, and so do open flags until the next
/// reading of their sump.
/// </summary>
/// <param name="FluidId">Null for the shop or a sump.</param>
/// <param name="SumpId">Null for the shop or a fluid.</param>
/// <param name="IsOn">Null leaves it to the place above.</param>
/// <param name="Numbers">What is set here; a number that is not named comes from the place above.</param>
/// <param name="SeenNumber">The version that the person saw, 0 for none, so that two people do not overwrite each other.</param>
public sealed record SetRule(Guid Id, string Rule, Guid? FluidId, Guid? SumpId, bool? IsOn, IReadOnlyDictionary<string, decimal> Numbers, string Reason, int SeenNumber);

/// <param name="Number">The version that it made.</param>
public sealed record SetRuleDone(Guid Id, int Number);

public sealed record RuleNotFound(string Code) : Error;

public sealed record FluidNotFound : Error;

/// <summary>It is set like that already.</summary>
public sealed record NothingChanged : Error;

public sealed class SetRuleHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public const int MaximumReasonLength = 500;

    public async Task<Result<SetRuleDone>> HandleAsync(SetRule command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.RuleSettings.FirstOrDefault(s => s.Id == command.Id) is { } known)
        {
            return IsSame(known, command) ? new SetRuleDone(known.Id, known.Number) : new OtherContentForId(command.Id);
        }

        if (RuleRegistry.Find(command.Rule) is not { } rule)
        {
            return new RuleNotFound(command.Rule);
        }

        if (command.FluidId is { } fluidId && setup.Fluids.All(f => f.Id != fluidId))
        {
            return new FluidNotFound();
        }

        var sump = command.SumpId is { } sumpId ? setup.FindSump(sumpId) : null;
        if (command.SumpId is not null && sump is null)
        {
            return new SumpNotFound("");
        }

        if (sump is { IsRetired: true })
        {
            return new SumpRetired(sump.Tag);
        }

        var errors = Check(command, rule);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var latest = setup.RuleSettings.Where(s => s.Rule == rule.Code && s.FluidId == command.FluidId && s.SumpId == command.SumpId).MaxBy(s => s.Number);
        if ((latest?.Number ?? 0) != command.SeenNumber)
        {
            return new ChangedMeanwhile(latest?.Number ?? 0);
        }

        if (latest?.IsOn == command.IsOn && AreSame(latest?.Numbers, command.Numbers))
        {
            return new NothingChanged();
        }

        var numbers = new SortedDictionary<string, decimal>(command.Numbers.ToDictionary(), StringComparer.Ordinal);
        var setting = new RuleSetting(command.Id, rule.Code, command.FluidId, command.SumpId, command.SeenNumber + 1, command.IsOn, numbers, command.Reason.Trim(), clock.UtcNow, actor.PersonId);
        write.Database.Add(setting);
        var place = sump?.Tag ?? (command.FluidId is { } fluid ? setup.Fluid(fluid).Name : setup.Site?.Name ?? "");
        await write.CommitAsync(new Act(ActCodes.RuleSet, actor, setting.SetAtUtc, place), cancellationToken);
        return new SetRuleDone(setting.Id, setting.Number);
    }

    private static List<FieldError> Check(SetRule command, IRule rule)
    {
        var errors = new List<FieldError>();
        if (command.FluidId is not null && command.SumpId is not null)
        {
            errors.Add(new("owner", FieldProblem.UnknownChoice));
        }

        foreach (var (name, value) in command.Numbers.OrderBy(n => n.Key, StringComparer.Ordinal))
        {
            var field = NumberField(rule.Code, name);
            if (rule.Numbers.FirstOrDefault(n => n.Name == name) is not { } number)
            {
                errors.Add(new(field, FieldProblem.UnknownChoice, Detail: name));
            }
            else if (value < number.Least || value > number.Most)
            {
                errors.Add(new(field, FieldProblem.OutOfRange, value, number.Least, number.Most, RuleSentences.Unit(rule.Code, name)));
            }
            else if (number.IsWhole && value != decimal.Truncate(value))
            {
                errors.Add(new(field, FieldProblem.NotWhole, value, number.Least, number.Most, RuleSentences.Unit(rule.Code, name)));
            }
        }

        TextChecks.Check(errors, "reason", command.Reason, MaximumReasonLength);
        return errors;
    }

    /// <summary>A number's name in errors and on forms.</summary>
    public static string NumberField(string rule, string name) => $"rules.{rule}.{name}";

    private static bool IsSame(RuleSetting known, SetRule command) =>
        known.Rule == command.Rule && known.FluidId == command.FluidId && known.SumpId == command.SumpId && known.IsOn == command.IsOn
        && known.Reason == command.Reason.Trim() && AreSame(known.Numbers, command.Numbers);

    private static bool AreSame(IReadOnlyDictionary<string, decimal>? known, IReadOnlyDictionary<string, decimal> numbers) =>
        (known?.Count ?? 0) == numbers.Count && numbers.All(n => known is not null && known.TryGetValue(n.Key, out var value) && value == n.Value);
}

using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Tuning;

/// <summary>One change of a rule at a place.</summary>
/// <param name="By">Null where the program did it, or somebody whose account is gone.</param>
/// <param name="Before">The version before; null when this is the first.</param>
public sealed record RuleChange(RuleSetting Setting, string? By, RuleSetting? Before);

/// <summary>Who changed which rule when, at one place; the newest first.</summary>
public sealed class RuleChangesQuery(ShopDatabase database)
{
    public async Task<IReadOnlyList<RuleChange>> RunAsync(Guid? fluidId, Guid? sumpId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var settings = await db.RuleSettings.AsNoTracking()
            .Where(s => s.FluidId == fluidId && s.SumpId == sumpId)
            .OrderByDescending(s => s.SetAtUtc).ThenByDescending(s => s.Number).ThenBy(s => s.Rule)
            .ToListAsync(cancellationToken);
        var people = settings.Select(s => s.PersonId).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.AsNoTracking().Where(p => people.Contains(p.Id)).Select(p => new { p.Id, p.DisplayName }).ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
        var byVersion = settings.ToDictionary(s => (s.Rule, s.Number));
        return [.. settings.Select(s => new RuleChange(s, s.PersonId is { } id ? names.GetValueOrDefault(id) : null, byVersion.GetValueOrDefault((s.Rule, s.Number - 1))))];
    }
}

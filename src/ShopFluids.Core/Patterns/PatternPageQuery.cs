using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Core.Patterns;

/// <summary>What the pattern table makes of what was seen, with what is known of a sump where one is chosen.</summary>
/// <param name="SumpTags">Sumps that hold a charge, in walking order.</param>
/// <param name="Sump">The tag of the chosen one; null where none is, or it stands empty.</param>
public sealed record PatternPage(IReadOnlyList<string> SumpTags, string? Sump, PatternCauses Causes);

public sealed class PatternPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    private readonly ChargeHistoryQuery _history = new();

    /// <param name="sumpTag">A sump; null or unknown for none.</param>
    /// <param name="seen">Symptoms that somebody has seen, by code; what the table does not have is left out.</param>
    public async Task<PatternPage> RunAsync(string? sumpTag, IReadOnlyCollection<string> seen, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        List<string> tags = [.. setup.Sumps.Where(s => setup.OpenCharge(s.Id) is not null).Select(s => s.Tag)];
        List<string> known = [.. seen.Where(s => PatternTable.Shipped.FindSymptom(s) is not null)];
        if (sumpTag is null || setup.FindSump(sumpTag) is not { } sump || setup.OpenCharge(sump.Id) is not { } charge)
        {
            return new(tags, null, PatternCauses.Of(PatternFacts.OnlySeen(known), PatternTable.Shipped));
        }

        var history = await _history.RunAsync(db, charge, clock.UtcNow.AddDays(1), cancellationToken);
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        return new(tags, sump.Tag, new ChargePatterns(setup, sump, charge).Seek(history, standing?.Facts, known));
    }
}

using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets;

/// <summary>Fills the blank round sheet with what is due, in the shop's own culture and units.</summary>
public sealed class RoundSheetQuery(RoundPageQuery round, EntryPageQuery entry, SetupCache setups)
{
    /// <param name="all">Every sump with fluid in it, not only those that are due.</param>
    /// <param name="addressOf">The address of a sump's entry page.</param>
    public async Task<RoundSheet> RunAsync(bool all, string printedBy, Func<string, string> addressOf, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(addressOf);
        var setup = await setups.CurrentAsync(cancellationToken);
        var say = new Sentences(setup.FormatFor(), setup);
        var page = await round.RunAsync(cancellationToken);
        var due = page.Due.Concat(page.Skipped).Select(s => s.Place.SumpId).ToHashSet();
        var stops = new List<RoundSheetStop>();
        var areas = new List<string>();
        foreach (var stop in page.All.Where(s => s.FilledAtUtc is not null && (all || due.Contains(s.Place.SumpId))))
        {
            // Drained between the two questions: then there is nothing to read any more.
            if ((await entry.RunAsync(stop.Place.Tag, cancellationToken)).Value is { } fields)
            {
                areas.Add(stop.Place.AreaName);
                stops.Add(new(
                    stop.Place.Tag,
                    Where(say, stop.Place),
                    stop.DueAtUtc is { } at ? say.Format.Late(at, page.NowUtc) : null,
                    addressOf(stop.Place.Tag),
                    [.. fields.Due.Select(f => Box(say, f, page.NowUtc))])
                {
                    Dangers = [.. new[] { stop.KeepAway is { } keepAway ? DoseSentences.Keep(keepAway, say.Format) : null, stop.WarnsOfGas ? Texts.Caution_HydrogenSulphideShort : null }.OfType<string>()],
                });
            }
        }

        return new(
            setup.Site?.Name ?? "",
            say.Format.LongDay(page.NowUtc),
            string.Join(", ", areas.Distinct(StringComparer.Ordinal)),
            say.Format.DayAndTime(page.NowUtc),
            printedBy,
            page.NowUtc,
            System.Globalization.CultureInfo.CurrentUICulture.TwoLetterISOLanguageName,
            stops);
    }

    private static string Where(Sentences say, SumpPlace place) => string.Join(", ", new[]
    {
        place.MachineCount > 1 ? say.Format.Say(Texts.Round_Central, say.Format.Count(place.MachineCount)) : $"{place.MachineTag} {place.MachineName}".Trim(),
        place.AreaName,
    }.Where(part => part.Length > 0));

    private static RoundSheetBox Box(Sentences say, EntryField field, DateTime nowUtc)
    {
        string Value(decimal value) => say.Value(field.Parameter, value);
        var way = say.Format.Units == UnitSystem.UsCustomary ? field.Ways.FirstOrDefault(w => w.Unit is "in" or "°F" or "gpg") ?? field.Ways[0] : field.Ways[0];
        var isTitration = field.Ways[0].Method == MeasuringMethod.Titration;
        return new(
            isTitration ? say.Format.Say(Texts.Entry_ByTitration, say.Parameter(field.Parameter)) : say.Parameter(field.Parameter),
            field.WordCount > 0 || way.Unit == "pH" ? "" : way.Unit,
            (field.Limits?.TargetLow, field.Limits?.TargetHigh) switch
            {
                ({ } low, { } high) => say.Format.Say(Texts.Entry_GaugeTarget, Value(low), Value(high)),
                ({ } low, null) => say.Format.Say(Texts.Entry_GaugeTargetFrom, Value(low)),
                (null, { } high) => say.Format.Say(Texts.Entry_GaugeTargetUpTo, Value(high)),
                _ => null,
            },
            field.Last is { } last ? say.Format.Say(Texts.Entry_Last, Value(last.Value), say.Format.Ago(last.TakenAtUtc, nowUtc)) : null,
            field.WordCount > 0 ? say.Words(field.Parameter) : []);
    }
}

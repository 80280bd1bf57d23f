using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Shop;

/// <summary>Who looks at a shop-floor page, and how it speaks to them.</summary>
public sealed record ShopVisit(Actor Actor, string Theme, bool CanOperate, bool IsSupervisor, ShopSetup Setup, ShopFormat Format, Sentences Sentences, ShopLinks Links, ShopAssets Assets)
{
    /// <summary>The browser is a shared tablet, whoever has signed in on it and how.</summary>
    public bool IsOnStation { get; init; }

    /// <summary>How things are written for them.</summary>
    public DeskWords Words => new(Setup, Format, Sentences);

    /// <summary>So long without a touch, and a shared tablet locks.</summary>
    public TimeSpan LocksAfter => TimeSpan.FromMinutes(Setup.Site?.LockMinutes ?? Site.UsualLockMinutes);

    public static async Task<ShopVisit> OfAsync(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        var setup = await http.RequestServices.GetRequiredService<SetupCache>().CurrentAsync(http.RequestAborted);
        var reader = ShopReader.Of(http);
        return Of(reader.Actor, reader.Look, setup, http.RequestServices.GetRequiredService<ShopAssets>());
    }

    public static ShopVisit Of(Actor actor, ShopLook look, ShopSetup setup, ShopAssets assets)
    {
        ArgumentNullException.ThrowIfNull(look);
        ArgumentNullException.ThrowIfNull(setup);
        var format = setup.FormatFor(look.Units);
        return new(
            actor,
            look.Theme,
            look.IsSupervisor || look.IsOperator,
            look.IsSupervisor,
            setup,
            format,
            new Sentences(format, setup),
            new ShopLinks(look.BasePath),
            assets)
        {
            IsOnStation = look.IsOnStation,
        };
    }

    /// <summary>A sentence of the texts with its places filled.</summary>
    public string Say(string pattern, params object?[] values) => Format.Say(pattern, values);

    /// <summary>The machine that a sump serves, or that it is a central system.</summary>
    public string Machine(SumpPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        return place.MachineCount > 1 ? Say(Texts.Round_Central, Format.Count(place.MachineCount)) : $"{place.MachineTag} {place.MachineName}".Trim();
    }

    /// <summary>Work in a few words, with its day where it is not due yet, and how late it is.</summary>
    public string Along(IEnumerable<RoundWork> work, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(work);
        return string.Join(" · ", work.Select(w => AlongOne(Sentences.Task(w.Kind, w.Cause, null), w, nowUtc)).Distinct(StringComparer.Ordinal));
    }

    private string AlongOne(string name, RoundWork work, DateTime nowUtc) =>
        Format.Late(work.DueAtUtc, nowUtc) is { } late ? Say(Texts.Round_AlongLate, name, late)
        : work.IsDue ? name
        : Say(Texts.Round_AlongDue, name, Format.Due(work.DueAtUtc, nowUtc));

    public string BareValue(string parameter, decimal value) => Words.BareValue(parameter, value);
}

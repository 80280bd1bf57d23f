using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Overview;

/// <summary>What is set up and what is missing, in the order in which one part needs the other.</summary>
public sealed class SetupOverview
{
    private const int NamesShown = 4;
    private readonly ShopSetup _setup;
    private readonly ShopFormat _format;

    private SetupOverview(DeskWords words, IReadOnlyList<LotRow> lots, int people)
    {
        (_setup, _format) = (words.Setup, words.Format);
        Steps = [Site(), Areas(), Waters(), Instruments(), Fluids(), Lots(lots), Sumps(), Charges(), Limits(), Rules(), Care(), People(people)];
        Next = Steps.FirstOrDefault(s => s.Missing is not null);
    }

    public IReadOnlyList<SetupStep> Steps { get; }

    /// <summary>Null when nothing is missing.</summary>
    public SetupStep? Next { get; }

    public static SetupOverview Of(DeskWords words, IReadOnlyList<LotRow> lots, int people) => new(words, lots, people);

    private SetupStep Site() => new(
        Texts.Setup_Site,
        _setup.Site is { } site ? $"{site.Name}, {site.TimeZoneId}" : Texts.Setup_SiteNone,
        _setup.Site is null ? Texts.Setup_SiteMissing : null,
        [new(_setup.Site is null ? Texts.Setup_SiteDo : Texts.Setup_Change, "setup/site")]);

    private SetupStep Areas() => Listed(Texts.Setup_Areas, [.. _setup.Areas.Select(a => a.Name)], Texts.Setup_AreasMissing, Texts.Setup_AreasDo, "setup/areas");

    private SetupStep Waters() => Listed(Texts.Setup_Waters, [.. _setup.Waters.Select(w => w.Name)], Texts.Setup_WatersMissing, Texts.Setup_WatersDo, "setup/waters");

    private SetupStep Instruments() => Listed(Texts.Setup_Instruments, [.. _setup.Instruments.Select(i => i.Tag)], Texts.Setup_InstrumentsMissing, Texts.Setup_InstrumentsDo, "setup/instruments");

    private SetupStep Fluids() => Listed(Texts.Setup_Fluids, [.. _setup.Fluids.Select(f => f.Name)], Texts.Setup_FluidsMissing, Texts.Setup_FluidsDo, "setup/fluids");

    private SetupStep Lots(IReadOnlyList<LotRow> lots)
    {
        var without = _setup.Fluids.Where(f => !lots.Any(l => l.FluidId == f.Id && l.IsUsable)).Select(f => f.Name).ToList();
        var usable = lots.Where(l => l.IsUsable).ToList();
        return new(
            Texts.Setup_Lots,
            usable.Count == 0 ? Texts.Setup_None : _format.Say(Texts.Setup_LotsThere, _format.Count(usable.Count), _format.Volume((double)usable.Sum(l => l.RemainingLitres))),
            _setup.Fluids.Count == 0 || without.Count == 0 ? null : _format.Say(Texts.Setup_LotsMissing, Names(without)),
            [new(Texts.Setup_LotsDo, "setup/lots")]);
    }

    private SetupStep Sumps()
    {
        var inUse = _setup.Sumps.Count(s => !s.IsRetired);
        return new(
            Texts.Setup_Sumps,
            inUse == 0 ? Texts.Setup_None : _format.Say(Texts.Setup_SumpsThere, _format.Count(inUse), _format.Count(_setup.Machines.Count)),
            inUse == 0 ? Texts.Setup_SumpsMissing : null,
            inUse == 0 ? [new(Texts.Setup_SumpsDo, "setup/sumps/new")] : [new(Texts.Setup_SumpsDo, "setup/sumps/new"), new(Texts.Setup_SumpsList, "setup/sumps")]);
    }

    private SetupStep Charges()
    {
        var sumps = _setup.Sumps.Where(s => !s.IsRetired).ToList();
        var empty = sumps.Where(s => _setup.OpenCharge(s.Id) is null).Select(s => s.Tag).ToList();
        return new(
            Texts.Setup_Charges,
            Share(sumps.Count, sumps.Count - empty.Count, Texts.Setup_ChargesThere),
            empty.Count == 0 ? null : _format.Say(Texts.Setup_ChargesMissing, Names(empty)),
            empty.Count == 0 ? [new(Texts.Setup_DrainDo, "setup/charges/drain")] : [new(Texts.Setup_FillDo, SetupAddress.Fill(empty[0])), new(Texts.Setup_DrainDo, "setup/charges/drain")]);
    }

    private SetupStep Limits() => new(
        Texts.Setup_Limits,
        _setup.Fluids.Count == 0 ? Texts.Setup_LimitsNone : Texts.Setup_LimitsThere,
        null,
        [new(Texts.Setup_LimitsDo, "setup/limits")]);

    private SetupStep Rules() => new(
        Texts.Setup_Rules,
        _format.Say(Texts.Setup_RulesThere, _format.Count(RuleRegistry.All.Count), _format.Count(_setup.RuleSettings.Select(s => s.Rule).Distinct().Count())),
        null,
        [new(Texts.Setup_RulesDo, "setup/rules")]);

    private SetupStep Care()
    {
        var sumps = _setup.Sumps.Where(s => !s.IsRetired).ToList();
        var without = sumps.Where(s => _setup.StepsOf(s.Id).Count == 0).Select(s => s.Tag).ToList();
        return new(
            Texts.Setup_Care,
            Share(sumps.Count, sumps.Count - without.Count, Texts.Setup_CareThere),
            without.Count == 0 ? null : _format.Say(Texts.Setup_CareMissing, Names(without)),
            [new(Texts.Setup_CareDo, without.Count == 0 ? "setup/care" : SetupAddress.Care(without[0])), new(Texts.Setup_ShutdownsDo, "setup/shutdowns")]);
    }

    private SetupStep People(int people) => new(
        Texts.Setup_People,
        people == 1 ? Texts.Setup_PeopleOne : _format.Say(Texts.Setup_PeopleThere, _format.Count(people)),
        null,
        [new(Texts.Setup_PeopleDo, "setup/people"), new(Texts.Setup_StationsDo, "setup/stations"), new(Texts.Setup_DisplaysDo, "setup/displays")]);

    private SetupStep Listed(string title, IReadOnlyList<string> names, string missing, string way, string address) =>
        new(title, names.Count == 0 ? Texts.Setup_None : Names(names), names.Count == 0 ? missing : null, [new(way, address)]);

    private string Share(int all, int done, string pattern) => all == 0 ? Texts.Setup_None : _format.Say(pattern, _format.Count(done), _format.Count(all));

    private string Names(IReadOnlyList<string> names) => names.Count <= NamesShown
        ? string.Join(", ", names)
        : _format.Say(Texts.Setup_AndMore, string.Join(", ", names.Take(NamesShown)), _format.Count(names.Count - NamesShown));
}

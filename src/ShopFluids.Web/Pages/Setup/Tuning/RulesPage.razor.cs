using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Tuning;

/// <summary>What each rule looks at and by which numbers, for the whole shop, a fluid or a sump; and who changed them.</summary>
public sealed partial class RulesPage
{
    private RuleDraft? _draft;
    private string _drafted = "";
    private int _saved;
    private Guid _rejudgeId;
    private string _rejudgeReason = "";
    private RejudgeDone? _rejudged;

    // A list that was left as it was after all is drawn anew.
    private int _picks;

    [SupplyParameterFromQuery(Name = "fluid")]
    public string? FluidId { get; set; }

    [SupplyParameterFromQuery(Name = "sump")]
    public string? SumpTag { get; set; }

    [SupplyParameterFromQuery(Name = "rule")]
    public string? RuleCode { get; set; }

    [Inject]
    public required SetRuleHandler Handler { get; init; }

    [Inject]
    public required RejudgeHandler Rejudging { get; init; }

    [Inject]
    public required RuleChangesQuery Changes { get; init; }

    protected override async Task<RulesView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(words);
        var (fluid, sump) = RulesView.PlaceOf(words.Setup, FluidId, SumpTag);
        var view = new RulesView(words, fluid, sump, RuleRegistry.Find(RuleCode ?? ""), await Changes.RunAsync(fluid?.Id, sump?.Id, cancellationToken));
        var drafted = $"{view.Key} {view.Edited?.Code}";
        if (drafted != _drafted || _draft is null)
        {
            _drafted = drafted;
            _draft = view.Edited is { } rule ? new RuleDraft(Clock.NewId(), view.OwnOf(rule.Code), view.FromAbove(rule), words.Sentences) : null;
        }

        return view;
    }

    private static string SwitchOf(RuleInForce rule, ShopFormat format) =>
        format.Say(rule.IsOn ? Texts.Setup_RuleIsOn : Texts.Setup_RuleIsOff, RuleSentences.Level(rule.OnFrom));

    /// <summary>What the version says otherwise than the one before.</summary>
    private static string WhatOf(RuleChange change, Sentences say)
    {
        var (now, before) = (change.Setting, change.Before);
        var parts = new List<string>();
        if (now.IsOn != before?.IsOn)
        {
            parts.Add(now.IsOn switch { true => Texts.Setup_RuleOn, false => Texts.Setup_RuleOff, _ => Texts.Setup_RuleLeftToAbove });
        }

        foreach (var name in now.Numbers.Keys.Union(before?.Numbers.Keys ?? []).Order(StringComparer.Ordinal))
        {
            var value = Value(now, name);
            if (value != Value(before, name))
            {
                parts.Add(say.Format.Say(Texts.Setup_RuleNumberIs, RuleSentences.Number(now.Rule, name), value ?? Texts.Setup_RuleLeftToAbove));
            }
        }

        return string.Join("; ", parts);

        string? Value(RuleSetting? setting, string name) => setting?.Numbers.TryGetValue(name, out var set) == true ? say.RuleValue(now.Rule, name, set) : null;
    }

    private void PickPlace(ChangeEventArgs e)
    {
        _picks++;
        Navigation.NavigateTo(e.Value is string { Length: > 0 } place ? $"setup/rules?{place}" : "setup/rules");
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var (fluid, sump) = RulesView.PlaceOf((await Session.WordsAsync(CancellationToken.None)).Setup, FluidId, SumpTag);
        if (_draft?.Read(read, fluid?.Id, sump?.Id) is not { } command || read.HasFaults)
        {
            return null;
        }

        var result = await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None);
        _saved = result.Value?.Number ?? _saved;
        return result.Error;
    }

    private async Task<Error?> RejudgeAsync(FormReader read)
    {
        var reason = read.Text("reason", _rejudgeReason);
        if (read.HasFaults)
        {
            return null;
        }

        // The same id until it is done: pressed twice it is one act.
        _rejudgeId = _rejudgeId == Guid.Empty ? Clock.NewId() : _rejudgeId;
        var (_, sump) = RulesView.PlaceOf((await Session.WordsAsync(CancellationToken.None)).Setup, FluidId, SumpTag);
        var result = await Rejudging.HandleAsync(new Rejudge(_rejudgeId, sump?.Tag, reason), await Session.ActorAsync(), CancellationToken.None);
        _rejudged = result.Value;
        return result.Error;
    }

    private async Task<string?> RejudgedAsync()
    {
        (_rejudgeId, _rejudgeReason) = (Guid.Empty, "");
        await LoadAsync();
        var format = (await Session.WordsAsync(Leaving)).Format;
        var sumps = _rejudged?.Sumps ?? [];
        return format.Say(Texts.Rejudge_Counts, format.Count(sumps.Count), format.Count(sumps.Sum(s => s.Raised.Count)), format.Count(sumps.Sum(s => s.Ended.Count)));
    }

    private async Task<string?> SavedAsync()
    {
        _drafted = "";
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_LimitsSaved, _saved);
    }
}

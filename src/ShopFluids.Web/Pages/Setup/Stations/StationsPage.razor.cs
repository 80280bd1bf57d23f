using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Stations;

/// <summary>The shared tablets: made, given a code, renamed, sent away, and how each fares.</summary>
public sealed partial class StationsPage
{
    private Guid _id;
    private StationRow? _edited;
    private OfferedStation? _offered;
    private string _name = "";
    private string _place = "";
    private string _theme = "shop";
    private string _said = "";

    [Inject]
    public required SetUpStationsHandler Handler { get; init; }

    [Inject]
    public required StationsQuery Stations { get; init; }

    private string FormTitle => _edited is null ? Texts.Setup_StationAdd : Texts.Setup_StationSave;

    protected override async Task<StationsView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_id == Guid.Empty)
        {
            _id = Clock.NewId();
        }

        return new StationsView(words, await Stations.AllAsync(cancellationToken), Clock.UtcNow);
    }

    private string LinkOf(OfferedStation offered) =>
        Navigation.ToAbsoluteUri(StationEndpoints.EnrolPath.TrimStart('/') + QueryString.Create(StationEndpoints.CodeField, offered.Code)).AbsoluteUri;

    private static IReadOnlyDictionary<string, string> SentencesOf(Error error) => error is FieldErrors { Fields: [{ Field: "name", Problem: FieldProblem.NotUnique }, ..] }
        ? new Dictionary<string, string> { ["name"] = Texts.Setup_StationNameTaken }
        : AccountSentences.Of(error);

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var name = read.Text("name", _name);
        if (read.HasFaults)
        {
            return null;
        }

        var actor = await Session.ActorAsync();
        var result = _edited is { } edited
            ? await Handler.HandleAsync(new ChangeStation(edited.Id, name, _place, _theme), actor, CancellationToken.None)
            : await Handler.HandleAsync(new AddStation(_id, name, _place, _theme), actor, CancellationToken.None);
        _offered = result.Value is { Code.Length: > 0 } offered ? offered : _offered;
        return result.Error;
    }

    private async Task<string?> SavedAsync()
    {
        var said = (await Session.WordsAsync(Leaving)).Format.Say(_edited is null ? Texts.Setup_Added : Texts.Setup_StationSaved, _name.Trim());
        (_id, _edited, _name, _place, _theme, _said) = (Guid.Empty, null, "", "", "shop", "");
        await LoadAsync();
        return said;
    }

    private void EditAsync(StationRow row) => (_edited, _name, _place, _theme) = (row, row.Name, row.Place, row.Theme);

    private async Task OfferAsync(StationRow row) => _said = await DoAsync(async () =>
    {
        var result = await Handler.HandleAsync(new OfferStation(row.Id), await Session.ActorAsync(), CancellationToken.None);
        _offered = result.Value ?? _offered;
        return result.Error;
    }) ?? "";

    private Task<string?> RevokeAsync(StationRow row) => DoAsync(async () =>
    {
        var result = await Handler.HandleAsync(new RevokeStation(row.Id), await Session.ActorAsync(), CancellationToken.None);
        _offered = _offered?.Id == row.Id ? null : _offered;
        return result.Error;
    });

    /// <returns>Why it was not done; null when it was.</returns>
    private async Task<string?> DoAsync(Func<Task<Error?>> act)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var error = await act();
            await LoadAsync();
            StateHasChanged();
            return error is null ? null : (await Session.WordsAsync(Leaving)).Sentences.Error(error);
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }
    }
}

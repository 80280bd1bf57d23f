using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Pages.Wall;

namespace ShopFluids.Web.Pages.Setup.Displays;

/// <summary>The screens on the walls: made, given a link, changed, revoked.</summary>
public sealed partial class DisplaysPage
{
    private Guid _id;
    private DisplayRow? _edited;
    private OfferedDisplay? _offered;
    private string _name = "";
    private string _area = "";
    private string _theme = "shop";
    private string _said = "";

    [Inject]
    public required SetUpDisplaysHandler Handler { get; init; }

    [Inject]
    public required DisplaysQuery Displays { get; init; }

    private string FormTitle => _edited is null ? Texts.Setup_DisplayAdd : Texts.Setup_DisplaySave;

    private Guid? AreaId => Guid.TryParse(_area, out var id) ? id : null;

    protected override async Task<DisplaysView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_id == Guid.Empty)
        {
            _id = Clock.NewId();
        }

        return new DisplaysView(words, await Displays.AllAsync(cancellationToken));
    }

    private string LinkOf(OfferedDisplay offered) =>
        Navigation.ToAbsoluteUri(WallEndpoints.OpenPath.TrimStart('/') + QueryString.Create(WallEndpoints.SecretField, offered.Secret)).AbsoluteUri;

    private static IReadOnlyDictionary<string, string> SentencesOf(Error error) => error is FieldErrors { Fields: [{ Field: "name", Problem: FieldProblem.NotUnique }, ..] }
        ? new Dictionary<string, string> { ["name"] = Texts.Setup_DisplayNameTaken }
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
            ? await Handler.HandleAsync(new ChangeDisplay(edited.Id, name, _theme, AreaId), actor, CancellationToken.None)
            : await Handler.HandleAsync(new AddDisplay(_id, name, _theme, AreaId), actor, CancellationToken.None);
        _offered = result.Value is { Secret.Length: > 0 } offered ? offered : _offered;
        return result.Error;
    }

    private async Task<string?> SavedAsync()
    {
        var said = (await Session.WordsAsync(Leaving)).Format.Say(_edited is null ? Texts.Setup_Added : Texts.Setup_StationSaved, _name.Trim());
        (_id, _edited, _name, _area, _theme, _said) = (Guid.Empty, null, "", "", "shop", "");
        await LoadAsync();
        return said;
    }

    private void Edit(DisplayRow row) => (_edited, _name, _area, _theme) = (row, row.Name, row.AreaId?.ToString() ?? "", row.Theme);

    private async Task RenewAsync(DisplayRow row) => _said = await DoAsync(async () =>
    {
        var result = await Handler.HandleAsync(new RenewDisplay(row.Id), await Session.ActorAsync(), CancellationToken.None);
        _offered = result.Value ?? _offered;
        return result.Error;
    }) ?? "";

    private Task<string?> RevokeAsync(DisplayRow row) => DoAsync(async () =>
    {
        var result = await Handler.HandleAsync(new RevokeDisplay(row.Id), await Session.ActorAsync(), CancellationToken.None);
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

using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.People;

public sealed record PeopleView(DeskWords Words, IReadOnlyList<AccountRow> Accounts);

/// <summary>Who may sign in. A supervisor or a caretaker adds people.</summary>
public sealed partial class PeoplePage
{
    private string _policy = Policies.CanSupervise;
    private Guid _id;
    private string _displayName = "";
    private string _signInName = "";
    private string _password = "";
    private string _pinOf = "";
    private string _pin = "";
    private string _leaver = "";
    private string _renamedTo = "";
    private IReadOnlySet<string> _roles = new HashSet<string>(StringComparer.Ordinal) { Roles.Operator };

    [Inject]
    public required AccountsQuery Accounts { get; init; }

    [Inject]
    public required MakeAccountHandler Handler { get; init; }

    [Inject]
    public required SetPinHandler Pins { get; init; }

    [Inject]
    public required RenameToNumberHandler Leavers { get; init; }

    private static IReadOnlyList<Choice> AllRoles => [.. Roles.All.Select(r => new Choice(r, RoleNames.Of(r)))];

    protected override async Task<PeopleView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_id == Guid.Empty)
        {
            _id = Clock.NewId();
        }

        _policy = await Session.MayAsync(Policies.CanSupervise) ? Policies.CanSupervise : Policies.CanCare;
        return new PeopleView(words, await Accounts.AllAsync(cancellationToken));
    }

    private async Task<Error?> SaveAsync(FormReader read) =>
        (await Handler.HandleAsync(new MakeAccount(_id, _signInName, _displayName, _password, [.. Roles.All.Where(_roles.Contains)], "light"), await Session.ActorAsync(), CancellationToken.None)).Error;

    // Only who takes readings has a tile on the tablets.
    private static IReadOnlyList<Choice> PeopleOf(PeopleView view) =>
        [.. view.Accounts.Where(a => a.Roles.Contains(Roles.Operator) || a.Roles.Contains(Roles.Supervisor)).Select(a => new Choice(a.Id.ToString("D"), $"{a.DisplayName} ({a.SignInName})"))];

    private async Task<Error?> SavePinAsync(FormReader read)
    {
        if (!Guid.TryParse(read.Text("person", _pinOf), out var person))
        {
            return null;
        }

        return (await Pins.HandleAsync(new SetPin(person, _pin), await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedPinAsync()
    {
        (_pinOf, _pin) = ("", "");
        await LoadAsync();
        return Texts.Setup_PinSaid;
    }

    private async Task<Error?> RenameAsync(FormReader read)
    {
        var renamed = await Leavers.HandleAsync(new RenameToNumber(_leaver), await Session.ActorAsync(), CancellationToken.None);
        _renamedTo = renamed.Value?.Label ?? "";
        return renamed.Error;
    }

    private async Task<string?> RenamedAsync()
    {
        _leaver = "";
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Account_Renamed, _renamedTo);
    }

    private async Task<string?> SavedAsync()
    {
        var name = _displayName.Trim();
        (_id, _displayName, _signInName, _password) = (Guid.Empty, "", "", "");
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Added, name);
    }
}

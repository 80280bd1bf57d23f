using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Start;

/// <summary>From an empty shop to the first round in four steps.</summary>
public sealed partial class StartPage
{
    private MachineListDraft? _draft;

    [Inject]
    public required AddMachineListHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        _draft ??= MachineListDraft.Empty(words.Format);
        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(MachineListDraft draft, FormReader read)
    {
        var command = draft.Command(read.Units, read.Number("weeklyHours", draft.WeeklyHours));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        var count = _draft?.Lines.Count ?? 0;
        _draft = null;
        await LoadAsync();
        return count == 1 ? Texts.Start_AddedOne : (await Session.WordsAsync(Leaving)).Format is var format && count > 0 ? format.Say(Texts.Start_Added, format.Count(count)) : null;
    }
}

using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Machines;

/// <summary>A machine as it is set up.</summary>
public sealed partial class EditMachinePage
{
    [Parameter]
    public required string Tag { get; set; }

    [Inject]
    public required ChangeMachineHandler Handler { get; init; }

    private string Title => string.Format(System.Globalization.CultureInfo.CurrentCulture, Texts.Setup_MachineTitle, Tag);

    protected override Task<FoundMachine> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var machine = Find(words);
        if (machine is not null && Draft?.Id != machine.Id)
        {
            Begin(MachineDraft.Of(machine, words.Format), machine.Version);
        }

        return Task.FromResult(new FoundMachine(words, machine));
    }

    private Machine? Find(DeskWords words) => words.Setup.Machines.FirstOrDefault(m => m.TagKey == Tags.Key(Tag));

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new MachineGone();
        }

        var command = new ChangeMachine(draft.Id, read.Text("machineName", draft.Name), draft.Process, read.Number("weeklyHours", draft.WeeklyHours), draft.DeliveryFlags, SeenVersion ?? 0);
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => Find(words) is { } stored ? (MachineDraft.Of(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Machine">Null when there is none of this tag.</param>
public sealed record FoundMachine(DeskWords Words, Machine? Machine);

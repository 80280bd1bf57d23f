using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A machine with its sump in one form; more machines make it a central system.</summary>
public sealed partial class NewSumpPage
{
    private SumpDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddSumpHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        // What is being typed outlives a second read.
        if (_draft.Id == Guid.Empty)
        {
            _draft = new SumpDraft(Clock.NewId());
            _draft.Machines.Add(new MachineDraft(Clock.NewId()));
            _draft.WalkOrder.Show(words.Setup.Sumps.Select(s => s.WalkOrder).DefaultIfEmpty(0).Max() + 1, words.Format);
            if (words.Setup.Areas is [var only])
            {
                _draft.AreaId = only.Id.ToString();
            }

            if (words.Setup.Waters is [var water])
            {
                _draft.WaterId = water.Id.ToString();
            }
        }

        return Task.FromResult(words);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new AddSump(
            _draft.Id,
            read.Id("area", _draft.AreaId),
            read.Text("sumpTag", _draft.Tag),
            _draft.ReadShape(read),
            read.Number("fullMarkMm", _draft.FullMark),
            read.Number("pumpIntakeMm", _draft.PumpIntake),
            read.WholeNumber("walkOrder", _draft.WalkOrder),
            _draft.WaterSourceId,
            _draft.ReadMachines(read));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private Task<string?> Leave()
    {
        Navigation.NavigateTo(SetupAddress.Sumps(_draft.Tag.Trim()));
        return Task.FromResult<string?>(null);
    }
}

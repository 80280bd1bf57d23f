using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A sump as it is set up.</summary>
public sealed partial class EditSumpPage
{
    [Parameter]
    public required string Tag { get; set; }

    [Inject]
    public required ChangeSumpHandler Handler { get; init; }

    private string Title => string.Format(CultureInfo.CurrentCulture, Texts.Setup_SumpTitle, Tag);

    private string NotFound { get; set; } = "";

    protected override Task<FoundSump> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var sump = words.Setup.FindSump(Tag);
        NotFound = words.Sentences.Error(sump is null ? new SumpNotFound(Tag) : new SumpRetired(sump.Tag));
        if (sump is not null && Draft?.Id != sump.Id)
        {
            Begin(SumpDraft.Of(sump, words.Format), sump.Version);
        }

        return Task.FromResult(new FoundSump(words, sump));
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (Draft is not { } draft)
        {
            return new SumpNotFound(Tag);
        }

        var command = new ChangeSump(
            draft.Tag,
            read.Id("area", draft.AreaId),
            draft.ReadShape(read),
            read.Number("fullMarkMm", draft.FullMark),
            read.Number("pumpIntakeMm", draft.PumpIntake),
            read.WholeNumber("walkOrder", draft.WalkOrder),
            draft.WaterSourceId,
            [.. draft.Served.Select(Guid.Parse)],
            draft.ReadMachines(read),
            SeenVersion ?? 0);
        return read.HasFaults ? null : await RefusedAsync(
            (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error,
            words => words.Setup.FindSump(draft.Tag) is { } stored ? (SumpDraft.Of(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Sump">Null when there is none of this tag.</param>
public sealed record FoundSump(DeskWords Words, Sump? Sump);

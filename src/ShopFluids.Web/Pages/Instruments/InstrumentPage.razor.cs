using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Instruments;

/// <param name="View">Null where no instrument has the tag.</param>
public sealed record FoundInstrument(InstrumentView? View);

/// <summary>One instrument: check it in standards, and how it did before.</summary>
public sealed partial class InstrumentPage
{
    private CheckDraft? _draft;
    private CheckResult? _result;
    private InstrumentView? _view;

    [Parameter]
    public string Tag { get; set; } = "";

    [Inject]
    public required InstrumentChecksQuery Query { get; init; }

    [Inject]
    public required NoteInstrumentCheckHandler Handler { get; init; }

    protected override string FailedText => Texts.Instrument_LoadFailed;

    protected override async Task<FoundInstrument> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (await Query.RunAsync(Tag, cancellationToken) is not { } instrument)
        {
            return new(null);
        }

        _draft ??= new CheckDraft(Clock.NewId(), instrument.Kind, instrument.Today);
        _view = new InstrumentView(instrument, words, await Session.MayAsync(Policies.CanOperate));
        return new(_view);
    }

    private async Task<Error?> CheckAsync(FormReader read)
    {
        if (_draft is null || _view is null)
        {
            throw new InvalidOperationException("Only an instrument that was found has a form.");
        }

        var command = _draft.Read(read, _view.Instrument.Id);
        if (read.HasFaults)
        {
            return null;
        }

        var noted = await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None);
        _result = noted.Value?.Result;
        return noted.Error;
    }

    private async Task<string?> SavedAsync()
    {
        var said = _result is { } result ? _view?.Outcome(result) : null;
        _draft = null;
        await LoadAsync();
        return said;
    }
}

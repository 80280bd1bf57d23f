using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Sheets.Jobs;

namespace ShopFluids.Web.Pages.Sheets.Panels;

/// <summary>The files that this person asked for: how far they are, and where they can be had.</summary>
public sealed partial class JobsPanel : IDisposable
{
    private IReadOnlyList<SheetJobView> _jobs = [];
    private ShopFormat? _format;
    private Guid _makerId;

    [Inject]
    public required SheetJobs Jobs { get; init; }

    [Inject]
    public required DeskSession Session { get; init; }

    public void Dispose() => Jobs.Changed -= OnChanged;

    protected override async Task OnInitializedAsync()
    {
        _makerId = (await Session.ActorAsync()).PersonId ?? Guid.Empty;
        _format = (await Session.WordsAsync(CancellationToken.None)).Format;
        _jobs = Jobs.Of(_makerId);
    }

    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            Jobs.Changed += OnChanged;
        }
    }

    // Raised on the thread that makes the files: only the circuit's own may draw.
    private void OnChanged(object? sender, EventArgs e) => _ = InvokeAsync(LookAgainAsync);

    private async Task LookAgainAsync()
    {
        try
        {
            _jobs = Jobs.Of(_makerId);
            StateHasChanged();
        }
        catch (Exception fault)
        {
            // The thread that makes the files has nobody to tell; the circuit has.
            await DispatchExceptionAsync(fault);
        }
    }

    private void Cancel(SheetJobView job) => Jobs.Cancel(job.Id, _makerId);

    private string Say(SheetJobView job) => _format is not { } format ? "" : job.State switch
    {
        SheetJobState.Waiting => Texts.Sheet_JobWaiting,
        SheetJobState.Running when job.Parts == job.Of => Texts.Sheet_JobWriting,
        SheetJobState.Running => format.Say(Texts.Sheet_JobRunning, format.Count(job.Parts), format.Count(job.Of)),
        SheetJobState.Done when job.KeptUntilUtc is { } until => format.Say(Texts.Sheet_JobDone, format.Time(until)),
        SheetJobState.Failed => format.Say(Texts.Sheet_JobFailed, job.Fault),
        _ => Texts.Sheet_JobCancelled,
    };
}

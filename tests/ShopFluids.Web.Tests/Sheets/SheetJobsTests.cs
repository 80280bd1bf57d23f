using System.Globalization;
using System.Threading.Channels;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Sheets.Jobs;
using Xunit;

namespace ShopFluids.Web.Tests.Sheets;

public sealed class SheetJobsTests : IDisposable
{
    private static readonly Guid Maker = new("01900000-0000-7000-8000-0000000000a1");
    private static readonly Guid Other = new("01900000-0000-7000-8000-0000000000a2");
    private readonly FakeTimeProvider _clock = new(new DateTimeOffset(Some.Start));
    private readonly SheetJobs _jobs;

    public SheetJobsTests() => _jobs = new(_clock, NullLogger<SheetJobs>.Instance);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _jobs.Dispose();

    [Fact]
    public async Task RunAsync_Work_IsDoneAndItsFileIsItsMakersOnly()
    {
        var id = Add("S-07", Made("file"));
        Assert.Equal(SheetJobState.Waiting, Assert.Single(_jobs.Of(Maker)).State);

        await RunUntilAsync(() => StateOf(id) == SheetJobState.Done);

        Assert.Equal("file", Text(_jobs.FileOf(id, Maker)));
        Assert.Null(_jobs.FileOf(id, Other));
        Assert.Empty(_jobs.Of(Other));
    }

    [Fact]
    public async Task RunAsync_SeveralFiles_AreMadeOneAfterTheOtherInTheirOrder()
    {
        var order = new List<string>();
        foreach (var name in new[] { "a", "b", "c" })
        {
            Add(name, (_, _) =>
            {
                order.Add(name);
                return Task.FromResult(SheetMade.Of([]));
            });
        }

        await RunUntilAsync(() => _jobs.Of(Maker).All(j => j.State == SheetJobState.Done));

        Assert.Equal(["a", "b", "c"], order);
    }

    [Fact]
    public async Task RunAsync_Progress_IsSeenWhileItRuns()
    {
        var (reached, goOn) = (new TaskCompletionSource(), new TaskCompletionSource());
        var id = _jobs.TryAdd(Maker, "S-07, S-08", 2, async (tell, _) =>
        {
            tell(1);
            reached.SetResult();
            await goOn.Task;
            return SheetMade.Of([]);
        }) ?? Guid.Empty;
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var running = _jobs.RunAsync(stop.Token);
        await reached.Task.WaitAsync(Token);

        var view = Assert.Single(_jobs.Of(Maker));
        Assert.Equal((SheetJobState.Running, 1, 2), (view.State, view.Parts, view.Of));

        goOn.SetResult();
        await UntilAsync(() => StateOf(id) == SheetJobState.Done);
        await StopAsync(stop, running);
    }

    [Fact]
    public void TryAdd_AsManyWaitAsMay_RefusesAndForgetsIt()
    {
        for (var n = 0; n < SheetJobs.MostWaiting; n++)
        {
            Assert.NotNull(_jobs.TryAdd(Maker, "waits", 1, Made("")));
        }

        Assert.Null(_jobs.TryAdd(Maker, "one too many", 1, Made("")));
        Assert.Equal(SheetJobs.MostWaiting, _jobs.Of(Maker).Count);
    }

    [Fact]
    public async Task Cancel_Waiting_IsNeverMade()
    {
        var isMade = false;
        var id = Add("S-07", (_, _) =>
        {
            isMade = true;
            return Task.FromResult(SheetMade.Of([]));
        });
        var next = Add("S-08", Made(""));
        _jobs.Cancel(id, Maker);

        await RunUntilAsync(() => StateOf(next) == SheetJobState.Done);

        Assert.False(isMade);
        Assert.Equal(SheetJobState.Cancelled, StateOf(id));
    }

    [Fact]
    public async Task Cancel_Running_StopsItAndTheNextIsMade()
    {
        var reached = new TaskCompletionSource();
        var id = Add("S-07", async (_, stop) =>
        {
            reached.SetResult();
            await Task.Delay(Timeout.Infinite, stop);
            return SheetMade.Of([]);
        });
        var next = Add("S-08", Made(""));
        using var stopping = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var running = _jobs.RunAsync(stopping.Token);
        await reached.Task.WaitAsync(Token);

        _jobs.Cancel(id, Maker);

        await UntilAsync(() => StateOf(next) == SheetJobState.Done);
        Assert.Equal(SheetJobState.Cancelled, StateOf(id));
        Assert.Null(_jobs.FileOf(id, Maker));
        await StopAsync(stopping, running);
    }

    [Fact]
    public void Cancel_BySomebodyElse_DoesNothing()
    {
        var id = Add("S-07", Made(""));

        _jobs.Cancel(id, Other);

        Assert.Equal(SheetJobState.Waiting, StateOf(id));
    }

    [Fact]
    public async Task RunAsync_WorkThrowsOrIsRefused_SaysSoAndTheNextIsMade()
    {
        var broken = Add("broken", (_, _) => throw new InvalidOperationException("The printer's ink is out."));
        var refused = Add("refused", (_, _) => Task.FromResult(SheetMade.Refused("There is no sump S-99.")));
        var next = Add("next", Made(""));

        await RunUntilAsync(() => StateOf(next) == SheetJobState.Done);

        Assert.Equal((SheetJobState.Failed, Texts.Failure_Server), (StateOf(broken), ViewOf(broken).Fault));
        Assert.Equal((SheetJobState.Failed, "There is no sump S-99."), (StateOf(refused), ViewOf(refused).Fault));
    }

    [Fact]
    public async Task FileOf_KeptLongEnough_IsGone()
    {
        var id = Add("S-07", Made("file"));
        await RunUntilAsync(() => StateOf(id) == SheetJobState.Done);

        _clock.Advance(SheetJobs.Kept - TimeSpan.FromSeconds(1));
        Assert.NotNull(_jobs.FileOf(id, Maker));
        _clock.Advance(TimeSpan.FromSeconds(1));

        Assert.Null(_jobs.FileOf(id, Maker));
        Assert.Empty(_jobs.Of(Maker));
    }

    [Fact]
    public async Task RunAsync_MoreThanAreKept_ForgetsTheOldest()
    {
        var first = Add("first", Made(""));
        await RunUntilAsync(() => StateOf(first) == SheetJobState.Done);
        for (var n = 0; n < SheetJobs.MostKept; n++)
        {
            _clock.Advance(TimeSpan.FromSeconds(1));
            var id = Add("next", Made(""));
            await RunUntilAsync(() => StateOf(id) == SheetJobState.Done);
        }

        Assert.Equal(SheetJobs.MostKept, _jobs.Of(Maker).Count);
        Assert.Null(_jobs.FileOf(first, Maker));
    }

    // The worker's thread knows nothing of the language of whoever asked.
    [Fact]
    public async Task RunAsync_Work_SpeaksTheLanguageOfWhoeverAsked()
    {
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("de-DE");
        var id = Add("S-07", (_, _) => Task.FromResult(SheetMade.Of(System.Text.Encoding.UTF8.GetBytes(CultureInfo.CurrentUICulture.Name))));
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("en-GB");

        await RunUntilAsync(() => StateOf(id) == SheetJobState.Done);

        Assert.Equal("de-DE", Text(_jobs.FileOf(id, Maker)));
    }

    private static SheetWork Made(string text) => (_, _) => Task.FromResult(SheetMade.Of(System.Text.Encoding.UTF8.GetBytes(text)));

    private static string Text(byte[]? file) => System.Text.Encoding.UTF8.GetString(file ?? []);

    private Guid Add(string name, SheetWork work)
    {
        var id = _jobs.TryAdd(Maker, name, 1, work);
        Assert.NotNull(id);
        return id.Value;
    }

    private SheetJobView ViewOf(Guid id) => _jobs.Of(Maker).Single(j => j.Id == id);

    private SheetJobState StateOf(Guid id) => ViewOf(id).State;

    private async Task RunUntilAsync(Func<bool> isSo)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var running = _jobs.RunAsync(stop.Token);
        await UntilAsync(isSo);
        await StopAsync(stop, running);
    }

    /// <summary>Waits for news, not for time.</summary>
    private async Task UntilAsync(Func<bool> isSo)
    {
        var news = Channel.CreateUnbounded<bool>();
        void Heard(object? sender, EventArgs e) => news.Writer.TryWrite(true);
        _jobs.Changed += Heard;
        while (!isSo())
        {
            await news.Reader.ReadAsync(Token);
        }

        _jobs.Changed -= Heard;
    }

    private static async Task StopAsync(CancellationTokenSource stop, Task running)
    {
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
    }
}

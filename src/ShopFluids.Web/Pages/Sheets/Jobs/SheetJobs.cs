using System.Collections.Concurrent;
using System.Threading.Channels;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sheets.Jobs;

/// <summary>
/// Files that take long are made one after the other, beside the pages. So many may wait and no more: whoever comes then is told so, and
/// the server never falls behind. What is ready is kept for a while for the person who asked for it, in memory: after a restart it is asked for again.
/// </summary>
public sealed class SheetJobs(TimeProvider time, ILogger<SheetJobs> log) : IDisposable
{
    /// <summary>Cancelled ones keep their place until it is their turn.</summary>
    public const int MostWaiting = 8;

    /// <summary>Files that are kept of each person; the oldest go first.</summary>
    public const int MostKept = 10;

    /// <summary>For how long a file can be had.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromMinutes(30);

    private readonly Channel<SheetJob> _waiting = Channel.CreateBounded<SheetJob>(new BoundedChannelOptions(MostWaiting) { SingleReader = true });
    private readonly ConcurrentDictionary<Guid, SheetJob> _jobs = new();

    /// <summary>Something changed about some file. Raised on the thread that works: a listener only notes it.</summary>
    public event EventHandler? Changed;

    private DateTime KeptUntilUtc => time.GetUtcNow().UtcDateTime + Kept;

    /// <returns>The new file's id; null when as many wait as may.</returns>
    public Guid? TryAdd(Guid makerId, string name, int of, SheetWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        var job = new SheetJob(Guid.CreateVersion7(time.GetUtcNow()), makerId, name, of, work);

        // Known before it is taken up: it may be done at once.
        _jobs[job.Id] = job;
        if (!_waiting.Writer.TryWrite(job))
        {
            Remove(job);
            return null;
        }

        Tell();
        return job.Id;
    }

    /// <summary>The files of one person, the latest first.</summary>
    public IReadOnlyList<SheetJobView> Of(Guid makerId)
    {
        Sweep();
        return [.. _jobs.Values.Where(j => j.MakerId == makerId).OrderByDescending(j => j.Id).Select(j => j.View)];
    }

    /// <summary>A file that is ready; null for anybody but its maker, and when it is no longer kept.</summary>
    public byte[]? FileOf(Guid id, Guid makerId)
    {
        Sweep();
        return Find(id, makerId)?.File;
    }

    public void Cancel(Guid id, Guid makerId)
    {
        if (Find(id, makerId)?.Cancel(KeptUntilUtc) == true)
        {
            Tell();
        }
    }

    /// <summary>Makes what waits, one after the other, until the program ends.</summary>
    public async Task RunAsync(CancellationToken stopping)
    {
        await foreach (var job in _waiting.Reader.ReadAllAsync(stopping))
        {
            if (job.Start())
            {
                Tell();
                job.End(await MakeAsync(job, stopping), KeptUntilUtc);
                Sweep();
                Tell();
            }
        }
    }

    public void Dispose()
    {
        foreach (var job in _jobs.Values)
        {
            job.Dispose();
        }
    }

    private async Task<SheetMade> MakeAsync(SheetJob job, CancellationToken stopping)
    {
        try
        {
            return await job.WorkAsync(Tell, stopping);
        }
        catch (OperationCanceledException) when (!stopping.IsCancellationRequested)
        {
            // Its maker cancelled it; that is what its state says already.
            return SheetMade.Refused(Texts.Sheet_JobCancelled);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            // One file that cannot be made must not keep the others from being made; its maker sees that it failed.
            log.SheetFailed(failure, job.Id);
            return SheetMade.Refused(Texts.Failure_Server);
        }
    }

    private SheetJob? Find(Guid id, Guid makerId) => _jobs.GetValueOrDefault(id) is { } job && job.MakerId == makerId ? job : null;

    private void Sweep()
    {
        var now = time.GetUtcNow().UtcDateTime;
        var over = _jobs.Values.Where(j => j.View.KeptUntilUtc is not null).OrderByDescending(j => j.Id).ToList();
        var tooMany = over.Where(j => j.File is not null).GroupBy(j => j.MakerId).SelectMany(files => files.Skip(MostKept));
        foreach (var job in over.Where(j => j.View.KeptUntilUtc <= now).Concat(tooMany))
        {
            Remove(job);
        }
    }

    private void Remove(SheetJob job)
    {
        if (_jobs.TryRemove(job.Id, out _))
        {
            job.Dispose();
        }
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);
}

using System.Globalization;

namespace ShopFluids.Web.Pages.Sheets.Jobs;

public enum SheetJobState
{
    Waiting = 0,
    Running = 1,
    Done = 2,
    Failed = 3,
    Cancelled = 4,
}

/// <summary>The file that came out, or the sentence that says why none did.</summary>
public sealed record SheetMade(byte[]? File, string? Fault)
{
    public static SheetMade Of(byte[] file) => new(file, null);

    public static SheetMade Refused(string fault) => new(null, fault);
}

/// <summary>Makes a file; tells after each part how many are done.</summary>
public delegate Task<SheetMade> SheetWork(Action<int> tell, CancellationToken cancellationToken);

/// <summary>A file as its maker sees it.</summary>
/// <param name="Name">What it holds, in words.</param>
/// <param name="Parts">How many parts are done.</param>
/// <param name="Of">How many there are.</param>
/// <param name="Fault">Why none came out; null unless it failed.</param>
/// <param name="KeptUntilUtc">Until when it can be had; null before it is done.</param>
public sealed record SheetJobView(Guid Id, string Name, SheetJobState State, int Parts, int Of, string? Fault, DateTime? KeptUntilUtc)
{
    public bool CanBeCancelled => State is SheetJobState.Waiting or SheetJobState.Running;
}

/// <summary>One file in the making. Its state changes under its own lock; pages get a copy.</summary>
internal sealed class SheetJob(Guid id, Guid makerId, string name, int of, SheetWork work) : IDisposable
{
    private readonly Lock _changing = new();
    private readonly CancellationTokenSource _cancelling = new();

    // The words and numbers of the file are those of whoever asked for it, not of the thread that makes it.
    private readonly (CultureInfo Numbers, CultureInfo Words) _culture = (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture);
    private SheetJobState _state;
    private int _parts;
    private SheetMade? _made;
    private DateTime? _keptUntilUtc;

    public Guid Id => id;

    public Guid MakerId => makerId;

    public byte[]? File => _made?.File;

    public SheetJobView View
    {
        get
        {
            lock (_changing)
            {
                return new(id, name, _state, _parts, of, _made?.Fault, _keptUntilUtc);
            }
        }
    }

    /// <summary>False where it was over before.</summary>
    public bool Cancel(DateTime keptUntilUtc)
    {
        lock (_changing)
        {
            if (_state is not (SheetJobState.Waiting or SheetJobState.Running))
            {
                return false;
            }

            _state = SheetJobState.Cancelled;
        }

        // Not under the lock: the work may answer at once. Until it has a time to be kept, nothing disposes of it.
        _cancelling.Cancel();
        lock (_changing)
        {
            _keptUntilUtc = keptUntilUtc;
        }

        return true;
    }

    /// <summary>False where it was cancelled while it waited.</summary>
    public bool Start()
    {
        lock (_changing)
        {
            if (_state != SheetJobState.Waiting)
            {
                return false;
            }

            _state = SheetJobState.Running;
            return true;
        }
    }

    public async Task<SheetMade> WorkAsync(Action changed, CancellationToken stopping)
    {
        (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture) = _culture;
        using var either = CancellationTokenSource.CreateLinkedTokenSource(_cancelling.Token, stopping);
        return await work(
            parts =>
            {
                lock (_changing)
                {
                    _parts = parts;
                }

                changed();
            },
            either.Token);
    }

    /// <summary>What came out is thrown away where it was cancelled meanwhile.</summary>
    public void End(SheetMade made, DateTime keptUntilUtc)
    {
        lock (_changing)
        {
            if (_state == SheetJobState.Running)
            {
                (_state, _made, _keptUntilUtc) = (made.File is null ? SheetJobState.Failed : SheetJobState.Done, made, keptUntilUtc);
            }
        }
    }

    public void Dispose() => _cancelling.Dispose();
}

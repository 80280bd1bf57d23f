using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>A page that changes something that is set up already. Two people who change it at once see each other's version, and neither is lost.</summary>
public abstract class ChangePage<TView, TDraft> : LoadedPage<TView>
    where TView : class
    where TDraft : class
{
    private long? _theirVersion;

    /// <summary>Null until the page has read it, and after a save until it has read it anew.</summary>
    protected TDraft? Draft { get; private set; }

    /// <summary>The version that a save has to find; null where nothing is stored yet.</summary>
    protected long? SeenVersion { get; private set; }

    /// <summary>What somebody else stored meanwhile; null while nobody did.</summary>
    protected TDraft? Theirs { get; private set; }

    protected void Begin(TDraft draft, long? version) => (Draft, SeenVersion, Theirs) = (draft, version, null);

    /// <summary>After a save: the next one stands on the version that it made.</summary>
    protected async Task<string?> BeginAnewAsync(string said)
    {
        Draft = null;
        await LoadAsync();
        return said;
    }

    /// <summary>Passes a command's error on; where somebody else was faster, reads what they stored.</summary>
    /// <param name="error">What the command answered.</param>
    /// <param name="read">The draft of what is stored, with its version; null where it is gone.</param>
    protected async Task<Error?> RefusedAsync(Error? error, Func<DeskWords, (TDraft Draft, long Version)?> read)
    {
        ArgumentNullException.ThrowIfNull(read);
        if (error is ChangedMeanwhile && read(await Session.WordsAsync(CancellationToken.None)) is { } stored)
        {
            (Theirs, _theirVersion) = (stored.Draft, stored.Version);
            StateHasChanged();
        }

        return error;
    }

    /// <summary>Goes on with what was typed: the next save takes the place of theirs.</summary>
    protected void KeepMine() => (SeenVersion, Theirs) = (_theirVersion, null);

    /// <summary>Goes on with what is stored.</summary>
    protected void TakeStored()
    {
        if (Theirs is { } theirs)
        {
            Begin(theirs, _theirVersion);
        }
    }
}

using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>A page that changes one thing of the set-up all of which the snapshot holds, such as a water.</summary>
public abstract class ChangeOnePage<TEntity, TDraft> : ChangePage<InSetup<TEntity>, TDraft>
    where TEntity : Entity
    where TDraft : class
{
    private Guid _drafted;

    /// <summary>The one that the address names; null when there is none.</summary>
    protected abstract TEntity? Find(DeskWords words);

    protected abstract TDraft DraftOf(TEntity stored, ShopFormat format);

    /// <summary>Sends what was typed, or stops at its faults.</summary>
    /// <param name="draft">What was typed.</param>
    /// <param name="read">Reads it.</param>
    /// <param name="seenVersion">The version that the person saw.</param>
    protected abstract Task<Error?> ChangeAsync(TDraft draft, FormReader read, long seenVersion);

    protected override Task<InSetup<TEntity>> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var found = Find(words);
        if (found is not null && (Draft is null || _drafted != found.Id))
        {
            _drafted = found.Id;
            Begin(DraftOf(found, words.Format), found.Version);
        }

        return Task.FromResult(new InSetup<TEntity>(words, found));
    }

    protected async Task<Error?> SaveAsync(FormReader read)
    {
        var draft = Draft ?? throw new InvalidOperationException("There is no form to save before there is a draft.");
        return await RefusedAsync(
            await ChangeAsync(draft, read, SeenVersion ?? 0),
            words => Find(words) is { } stored ? (DraftOf(stored, words.Format), stored.Version) : null);
    }
}

/// <param name="Found">Null when there is none at this address.</param>
public sealed record InSetup<T>(DeskWords Words, T? Found)
    where T : Entity;

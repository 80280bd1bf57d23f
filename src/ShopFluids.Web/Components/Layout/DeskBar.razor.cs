using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Components.Layout;

public sealed partial class DeskBar : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();

    /// <summary>
    /// Kept from the drawing ahead, so that nothing in the bar goes away and comes back. Not brought back with a circuit that was lost: somebody else may sit there by
    /// then.
    /// </summary>
    [PersistentState(RestoreBehavior = RestoreBehavior.SkipLastSnapshot)]
    public DeskBarContent? Content { get; set; }

    /// <summary>What was searched for, on the page that shows what was found: it is drawn once, no circuit follows.</summary>
    [Parameter]
    public string? Sought { get; set; }

    [Inject]
    public required DeskSession Session { get; init; }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override async Task OnInitializedAsync() => Content ??= await ReadAsync();

    private async Task<DeskBarContent> ReadAsync()
    {
        var rights = await Session.RightsAsync(Policies.CanSupervise, Policies.CanAudit, Policies.CanCare);
        return new(
            (await Session.WordsAsync(_leaving.Token)).Setup.Site?.Name ?? "",
            await Session.NameAsync(),
            rights.Contains(Policies.CanSupervise),
            rights.Contains(Policies.CanAudit),
            rights.Contains(Policies.CanCare));
    }
}

/// <summary>What the bar says to the person who has signed in.</summary>
public sealed record DeskBarContent(string Site, string Name, bool MaySetUp, bool MayAudit, bool MayCare);

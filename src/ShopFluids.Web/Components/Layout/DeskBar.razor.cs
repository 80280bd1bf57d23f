using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Components.Layout;

public sealed partial class DeskBar : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private string _site = "";
    private string _name = "";
    private bool _maySetUp;
    private bool _mayCare;
    private bool _mayAudit;

    [Inject]
    public required DeskSession Session { get; init; }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        _site = (await Session.WordsAsync(_leaving.Token)).Setup.Site?.Name ?? "";
        _name = await Session.NameAsync();
        _maySetUp = await Session.MayAsync(Policies.CanSupervise);
        _mayAudit = await Session.MayAsync(Policies.CanAudit);
        _mayCare = await Session.MayAsync(Policies.CanCare);
    }
}

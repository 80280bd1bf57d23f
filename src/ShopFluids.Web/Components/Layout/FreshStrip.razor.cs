using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Components.Layout;

/// <summary>Says how old the page is; its age is counted here, so that counting draws nothing else anew.</summary>
public sealed partial class FreshStrip : IDisposable
{
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(5);
    private ITimer? _timer;
    private int _seconds;

    [Parameter, EditorRequired]
    public required DateTime LoadedAtUtc { get; set; }

    /// <summary>The last look failed; what is shown is from before.</summary>
    [Parameter, EditorRequired]
    public required bool IsLost { get; set; }

    /// <summary>Drawn before its circuit is there: nothing is live yet, and nobody counts.</summary>
    [Parameter]
    public bool IsAhead { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    [Parameter]
    public RenderFragment? ChildContent { get; set; }

    [Inject]
    public required TimeProvider Time { get; init; }

    public void Dispose() => _timer?.Dispose();

    protected override void OnParametersSet() => Count();

    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            _timer = Time.CreateTimer(_ => _ = InvokeAsync(() => { Count(); StateHasChanged(); }), state: null, Tick, Tick);
        }
    }

    private void Count() => _seconds = Math.Max(0, (int)(Time.GetUtcNow().UtcDateTime - LoadedAtUtc).TotalSeconds);
}

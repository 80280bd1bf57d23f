using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

public partial class FailureDocument
{
    [Parameter, EditorRequired] public required string Title { get; set; }

    /// <summary>Whether it failed here, so that trying again may help.</summary>
    [Parameter] public bool IsOurFault { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }
}

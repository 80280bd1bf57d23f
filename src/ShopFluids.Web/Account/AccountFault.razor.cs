using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

public partial class AccountFault
{
    [Parameter] public string? Text { get; set; }
}

using Microsoft.AspNetCore.Authorization;
using ShopFluids.Core.People;

namespace ShopFluids.Web.Account;

/// <summary>What a page or address asks for. Who holds several roles may do what any of them allows.</summary>
public static class Policies
{
    /// <summary>Anybody with a role.</summary>
    public const string CanRead = "CanRead";

    /// <summary>Takes readings, adds, ticks off tasks.</summary>
    public const string CanOperate = "CanOperate";

    /// <summary>Sets up, plans, corrects, closes flags.</summary>
    public const string CanSupervise = "CanSupervise";

    /// <summary>Reads who did what.</summary>
    public const string CanAudit = "CanAudit";

    /// <summary>Takes care of accounts and tokens.</summary>
    public const string CanCare = "CanCare";

    internal static AuthorizationBuilder AddPolicies(this AuthorizationBuilder builder) => builder
        .AddPolicy(CanRead, p => p.RequireRole([.. Roles.All]))
        .AddPolicy(CanOperate, p => p.RequireRole(Roles.Operator, Roles.Supervisor))
        .AddPolicy(CanSupervise, p => p.RequireRole(Roles.Supervisor))
        .AddPolicy(CanAudit, p => p.RequireRole(Roles.Supervisor, Roles.Auditor, Roles.Caretaker))
        .AddPolicy(CanCare, p => p.RequireRole(Roles.Caretaker));
}

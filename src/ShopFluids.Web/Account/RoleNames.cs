using ShopFluids.Core.People;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <summary>Roles as they stand on screens.</summary>
public static class RoleNames
{
    public static string Of(string role) => role switch
    {
        Roles.Operator => Texts.Role_Operator,
        Roles.Supervisor => Texts.Role_Supervisor,
        Roles.Auditor => Texts.Role_Auditor,
        Roles.Caretaker => Texts.Role_Caretaker,
        _ => role,
    };
}

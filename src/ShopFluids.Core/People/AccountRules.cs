using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;

namespace ShopFluids.Core.People;

/// <summary>What an account's name, password and roles must look like.</summary>
public static class AccountRules
{
    public const int MaximumNameLength = 60;
    public const int MaximumDisplayNameLength = 120;

    /// <summary>Length is what makes a password strong; rules about signs only make it forgettable.</summary>
    public const int MinimumPasswordLength = 10;

    public const int MaximumPasswordLength = 200;

    /// <summary>light, dark, or the bright one with large edges for the shop floor.</summary>
    public static IReadOnlyList<string> Themes { get; } = ["light", "dark", "shop"];

    internal static void CheckName(List<FieldError> errors, string signInName)
    {
        if (signInName.Length == 0)
        {
            errors.Add(new FieldError("signInName", FieldProblem.Missing));
        }
        else if (signInName.Length > MaximumNameLength)
        {
            errors.Add(new FieldError("signInName", FieldProblem.TooLong, High: MaximumNameLength));
        }
        else if (PersonNumber.IsKept(signInName))
        {
            errors.Add(new FieldError("signInName", FieldProblem.UnknownChoice));
        }
        else if (signInName.Any(c => !char.IsLetterOrDigit(c) && c is not ('.' or '-' or '_' or '@')))
        {
            errors.Add(new FieldError("signInName", FieldProblem.NotATag));
        }
    }

    internal static void CheckDisplayName(List<FieldError> errors, string displayName) =>
        TextChecks.Check(errors, "displayName", displayName, MaximumDisplayNameLength);

    internal static void CheckPassword(List<FieldError> errors, string password, string signInName)
    {
        if (password.Length is < MinimumPasswordLength or > MaximumPasswordLength)
        {
            var problem = password.Length == 0 ? FieldProblem.Missing : FieldProblem.OutOfRange;
            errors.Add(new FieldError("password", problem, Low: MinimumPasswordLength, High: MaximumPasswordLength));
        }
        else if (string.Equals(password, signInName, StringComparison.OrdinalIgnoreCase))
        {
            errors.Add(new FieldError("password", FieldProblem.NotUnique));
        }
    }

    /// <summary>Whoever changes a secret of an account at an open screen must be the one whose account it is.</summary>
    internal static void CheckCurrent(List<FieldError> errors, IPasswordHasher<Person> passwords, Person person, string field, string typed)
    {
        if (person.PasswordHash is null || passwords.VerifyHashedPassword(person, person.PasswordHash, typed) == PasswordVerificationResult.Failed)
        {
            errors.Add(new FieldError(field, typed.Length == 0 ? FieldProblem.Missing : FieldProblem.UnknownChoice));
        }
    }

    internal static void CheckRoles(List<FieldError> errors, IReadOnlyList<string> roles)
    {
        if (roles.Count == 0)
        {
            errors.Add(new FieldError("roles", FieldProblem.Missing));
        }

        errors.AddRange(roles.Where(r => !Roles.All.Contains(r)).Select(r => new FieldError("roles", FieldProblem.UnknownChoice, Detail: r)));
    }

    internal static void CheckTheme(List<FieldError> errors, string theme)
    {
        if (!Themes.Contains(theme))
        {
            errors.Add(new FieldError("theme", FieldProblem.UnknownChoice, Detail: theme));
        }
    }

    /// <summary>Of those who have not left.</summary>
    internal static Task<Person?> FindAsync(ShopFluidsDbContext database, string normalizedName, CancellationToken cancellationToken) =>
        database.Users.SingleOrDefaultAsync(p => p.NormalizedUserName == normalizedName && p.LeftAtUtc == null, cancellationToken);

    /// <summary>Whether the shop would be left without a supervisor: nobody could set it up any more.</summary>
    internal static async Task<bool> IsLastSupervisorAsync(ShopFluidsDbContext database, Guid personId, CancellationToken cancellationToken)
    {
        var supervisors = from held in database.UserRoles
                          join role in database.Roles on held.RoleId equals role.Id
                          where role.Name == Roles.Supervisor
                          select held.UserId;
        return !await supervisors.AnyAsync(id => id != personId, cancellationToken);
    }
}

/// <summary>No account has this sign-in name or id.</summary>
public sealed record AccountNotFound(string Name) : Error;

/// <summary>The shop would be left without anybody who may do this.</summary>
public sealed record LastOfItsRole(string Role) : Error;

using System.Globalization;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account.Stations;

namespace ShopFluids.Web.Account;

/// <summary>
/// Name and password tried. A name that nobody has, a wrong password and a shut account take as long as each other and read the
/// same, so that nobody learns here which names exist.
/// </summary>
internal sealed class PasswordSignIn(SignInManager<Person> signIn, IPasswordHasher<Person> passwords, IOptions<IdentityOptions> options, ILogger<PasswordSignIn> log)
{
    public const string NameField = "name";
    public const string PasswordField = "password";

    /// <summary>What is said to everybody who is not let in.</summary>
    public string Refusal => string.Format(
        CultureInfo.CurrentCulture,
        Texts.Account_SignInRefused,
        options.Value.Lockout.MaxFailedAccessAttempts,
        options.Value.Lockout.DefaultLockoutTimeSpan.TotalMinutes);

    /// <returns>Who is signed in from now on; null when refused.</returns>
    public async Task<Person?> TryAsync(FormPost post)
    {
        ArgumentNullException.ThrowIfNull(post);
        var password = post.Secret(PasswordField);
        var name = post.Text(NameField);
        var person = TextChecks.IsStorable(name) ? await signIn.UserManager.FindByNameAsync(name) : null;
        var result = person is null ? SignInResult.Failed : await signIn.PasswordSignInAsync(person, password, isPersistent: false, lockoutOnFailure: true);
        if (person is not null && result.Succeeded)
        {
            // A person with a password is one sign-in, a person with a PIN another: never both in one browser.
            await signIn.Context.SignOutAsync(PinSession.Scheme);
            log.SignedIn(person.Id);
            return person;
        }

        if (person is null || result.IsLockedOut)
        {
            // As slow as a real check.
            passwords.HashPassword(new Person(), password);
        }

        log.SignInRefused();
        return null;
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.People;

/// <summary>The first run: names the shop and makes its first supervisor, who also takes care of the server.</summary>
/// <param name="TimeZoneId">IANA name, such as Europe/Berlin.</param>
/// <param name="Culture">BCP 47 tag of a place, such as en-GB; decides how numbers and dates are written, and the currency.</param>
public sealed record OpenShop(
    Guid SiteId,
    Guid PersonId,
    string SiteName,
    string TimeZoneId,
    string Culture,
    UnitSystem Units,
    string DisplayName,
    string SignInName,
    string Password);

/// <summary>Somebody has an account already; the first run is over.</summary>
public sealed record ShopIsOpen : Error;

public sealed class OpenShopHandler(ShopDatabase shop, AccountMaker maker, ShopClock clock)
{
    private const int MaximumSiteNameLength = 120;

    public async Task<Result<MadeAccount>> HandleAsync(OpenShop command, CancellationToken cancellationToken)
    {
        var siteName = command.SiteName.Trim();
        var signInName = command.SignInName.Trim();
        var displayName = command.DisplayName.Trim();
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "siteName", siteName, MaximumSiteNameLength);
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(command.TimeZoneId, out _))
        {
            errors.Add(new FieldError("timeZone", FieldProblem.UnknownChoice, Detail: command.TimeZoneId));
        }

        if (CurrencyOf(command.Culture) is not { } currency)
        {
            errors.Add(new FieldError("culture", FieldProblem.UnknownChoice, Detail: command.Culture));
            currency = "";
        }

        AccountRules.CheckDisplayName(errors, displayName);
        AccountRules.CheckName(errors, signInName);
        AccountRules.CheckPassword(errors, command.Password, signInName);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var person = maker.Make(command.PersonId, signInName, displayName, command.Password, "light");
        await using var write = await shop.WriteAsync(cancellationToken);
        if (await write.Database.Users.AnyAsync(cancellationToken))
        {
            return new ShopIsOpen();
        }

        if (!await write.Database.Sites.AnyAsync(cancellationToken))
        {
            write.Database.Add(new Site(command.SiteId, siteName, command.TimeZoneId, command.Culture, command.Units, currency));
        }

        write.Database.Add(person);
        await maker.SetRolesAsync(write.Database, person.Id, [Roles.Supervisor, Roles.Caretaker], cancellationToken);
        var number = await PersonNumbers.AddAsync(write.Database, person, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.AccountMade, new Actor(person.Id, displayName), clock.UtcNow, number.Label), cancellationToken);
        return new MadeAccount(person.Id, signInName, IsNew: true);
    }

    // A language without a place has no currency, and is not offered.
    private static string? CurrencyOf(string culture)
    {
        try
        {
            return new RegionInfo(culture).ISOCurrencySymbol;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}

namespace ShopFluids.Web.Settings;

/// <summary>Where word of flags that nobody answered is posted to.</summary>
/// <param name="Secret">Signs what is posted, so that the receiver knows whom it is from.</param>
public sealed record WebhookSettings(Uri Url, string Secret);

/// <summary>The relay that takes mail of flags that nobody answered.</summary>
/// <param name="To">At least one address.</param>
/// <param name="User">Null for a relay that asks for none.</param>
/// <param name="Password">Null where there is no user.</param>
/// <param name="UsesTls">The connection is made secret (STARTTLS) before anything is sent.</param>
public sealed record MailSettings(string Host, int Port, string From, IReadOnlyList<string> To, string? User, string? Password, bool UsesTls);

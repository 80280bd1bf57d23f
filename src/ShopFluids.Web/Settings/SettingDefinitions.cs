using System.Collections.ObjectModel;

namespace ShopFluids.Web.Settings;

/// <param name="Name">The environment variable.</param>
/// <param name="Key">The key in shopfluids.json; null where the file cannot hold it.</param>
/// <param name="Option">The option on the command line; null where it would show a secret to everybody on the machine.</param>
/// <param name="Default">Null where there is none.</param>
internal sealed record SettingDefinition(string Name, string? Key, string? Option, string? Default, bool IsSecret = false, bool IsFlag = false);

/// <summary>Every setting there is; docs and help are made from the same list.</summary>
internal static class SettingDefinitions
{
    public const string Prefix = "SHOPFLUIDS_";

    /// <summary>Variables of the tests; the program takes no notice of them.</summary>
    public const string TestPrefix = "SHOPFLUIDS_TEST_";

    public const string FileSuffix = "_FILE";

    public const string FileName = "shopfluids.json";

    public static readonly SettingDefinition Data = new("SHOPFLUIDS_DATA", null, "data", "./data");
    public static readonly SettingDefinition Engine = new("SHOPFLUIDS_DATABASE_ENGINE", "databaseEngine", "database-engine", "sqlite");
    public static readonly SettingDefinition Connection = new("SHOPFLUIDS_DATABASE_CONNECTION", "databaseConnection", null, null, IsSecret: true);
    public static readonly SettingDefinition Urls = new("SHOPFLUIDS_URLS", "urls", "urls", "http://localhost:5080");
    public static readonly SettingDefinition BasePath = new("SHOPFLUIDS_BASE_PATH", "basePath", "base-path", "");
    public static readonly SettingDefinition TimeZone = new("SHOPFLUIDS_TIME_ZONE", "timeZone", "time-zone", "Etc/UTC");
    public static readonly SettingDefinition TrustedProxies = new("SHOPFLUIDS_TRUSTED_PROXIES", "trustedProxies", "trusted-proxies", "");
    public static readonly SettingDefinition RecordKey = new("SHOPFLUIDS_RECORD_KEY", "recordKey", null, "", IsSecret: true);
    public static readonly SettingDefinition Demo = new("SHOPFLUIDS_DEMO", null, "demo", "false", IsFlag: true);

    /// <summary>The address may hold a token, so it is masked like a secret.</summary>
    public static readonly SettingDefinition WebhookUrl = new("SHOPFLUIDS_ESCALATION_WEBHOOK_URL", "escalationWebhookUrl", null, "", IsSecret: true);
    public static readonly SettingDefinition WebhookSecret = new("SHOPFLUIDS_ESCALATION_WEBHOOK_SECRET", "escalationWebhookSecret", null, "", IsSecret: true);
    public static readonly SettingDefinition MailHost = new("SHOPFLUIDS_MAIL_HOST", "mailHost", null, "");
    public static readonly SettingDefinition MailPort = new("SHOPFLUIDS_MAIL_PORT", "mailPort", null, "25");
    public static readonly SettingDefinition MailTls = new("SHOPFLUIDS_MAIL_TLS", "mailTls", null, "true");
    public static readonly SettingDefinition MailFrom = new("SHOPFLUIDS_MAIL_FROM", "mailFrom", null, "");
    public static readonly SettingDefinition MailTo = new("SHOPFLUIDS_MAIL_TO", "mailTo", null, "");
    public static readonly SettingDefinition MailUser = new("SHOPFLUIDS_MAIL_USER", "mailUser", null, "");
    public static readonly SettingDefinition MailPassword = new("SHOPFLUIDS_MAIL_PASSWORD", "mailPassword", null, "", IsSecret: true);

    public static ReadOnlyCollection<SettingDefinition> All { get; } = new(
    [
        Data, Engine, Connection, Urls, BasePath, TimeZone, TrustedProxies, RecordKey, Demo,
        WebhookUrl, WebhookSecret, MailHost, MailPort, MailTls, MailFrom, MailTo, MailUser, MailPassword,
    ]);
}

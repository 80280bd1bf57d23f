using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Web.Settings;

/// <summary>The settings in effect, checked. The defaults and bounds stand at <see cref="SettingDefinitions"/>.</summary>
public sealed record ShopSettings
{
    /// <summary>Full path. The demo keeps to a sub-folder, so that it never touches a real shop's database.</summary>
    public required string DataFolder { get; init; }

    public required DatabaseEngine Engine { get; init; }

    /// <summary>Names the database to the engine's driver.</summary>
    public required string ConnectionString { get; init; }

    /// <summary>Where the server listens.</summary>
    public required IReadOnlyList<string> Urls { get; init; }

    /// <summary>Empty, or the path under which a reverse proxy shows the program, such as /coolant.</summary>
    public string BasePath { get; init; } = "";

    /// <summary>IANA name offered at the first run.</summary>
    public string TimeZoneId { get; init; } = "Etc/UTC";

    public bool IsDemo { get; init; }

    /// <summary>Addresses or networks of reverse proxies whose forwarded headers count, besides this machine's own.</summary>
    public IReadOnlyList<string> TrustedProxies { get; init; } = [];

    /// <summary>Null where the key to the record lies in the data folder.</summary>
    public RecordKey? RecordKey { get; init; }

    /// <summary>Null where flags that nobody answered are told to no other program.</summary>
    public WebhookSettings? Webhook { get; init; }

    /// <summary>Null where flags that nobody answered are told to nobody by mail.</summary>
    public MailSettings? Mail { get; init; }

    public string BackupFolder => Path.Combine(DataFolder, "backups");
}

/// <summary>The engines that a shop can choose.</summary>
public enum DatabaseEngine
{
    Sqlite = 1,
    Postgres = 2,
}

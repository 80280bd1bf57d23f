using System.Net;
using Microsoft.Data.Sqlite;
using Npgsql;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Settings;

/// <summary>Reads and checks the settings, and lists every fault rather than the first.</summary>
public static class SettingsReader
{
    /// <summary>The database file of the embedded engine in the data folder.</summary>
    public const string DatabaseFile = "shopfluids.db";

    /// <summary>The demo's own part of the data folder.</summary>
    public const string DemoFolder = "demo";

    /// <param name="environment">Environment variables by name.</param>
    /// <param name="options">Options of the command line by name, without dashes.</param>
    /// <param name="currentFolder">What a relative data folder is relative to.</param>
    public static SettingsReading Read(IReadOnlyDictionary<string, string> environment, IReadOnlyDictionary<string, string> options, string currentFolder)
    {
        var sources = new SettingSources(environment, options);
        sources.FindUnknown();
        var demo = sources.Find(SettingDefinitions.Demo);
        var data = sources.Find(SettingDefinitions.Data);
        var isDemo = ReadFlag(sources, demo);
        var folder = ReadFolder(sources, data, currentFolder, isDemo);
        sources.ReadFile(folder);

        var effective = SettingDefinitions.All
            .Select(d => d == SettingDefinitions.Demo ? demo : d == SettingDefinitions.Data ? data : sources.Find(d))
            .ToDictionary(e => e.Name);
        var engine = ReadEngine(sources, effective[SettingDefinitions.Engine.Name]);
        var settings = new ShopSettings
        {
            DataFolder = folder,
            Engine = engine,
            ConnectionString = ReadConnection(sources, effective[SettingDefinitions.Connection.Name], engine, folder),
            Urls = ReadUrls(sources, effective[SettingDefinitions.Urls.Name]),
            BasePath = ReadBasePath(sources, effective[SettingDefinitions.BasePath.Name]),
            TimeZoneId = ReadTimeZone(sources, effective[SettingDefinitions.TimeZone.Name]),
            TrustedProxies = ReadProxies(sources, effective[SettingDefinitions.TrustedProxies.Name]),
            RecordKey = ReadRecordKey(sources, effective[SettingDefinitions.RecordKey.Name]),
            IsDemo = isDemo,
            Webhook = EscalationSettingsReader.ReadWebhook(sources, effective),
            Mail = EscalationSettingsReader.ReadMail(sources, effective, flag => ReadFlag(sources, flag)),
        };
        return new SettingsReading(sources.Faults.Count == 0 ? settings : null, sources.Faults, [.. SettingDefinitions.All.Select(d => effective[d.Name])]);
    }

    private static bool ReadFlag(SettingSources sources, EffectiveSetting setting)
    {
        switch (setting.Value.Trim().ToLowerInvariant())
        {
            case "true" or "1" or "yes" or "on":
                return true;
            case "false" or "0" or "no" or "off" or "":
                return false;
            default:
                sources.Fault(setting.Name, Texts.Setting_NotAFlag, setting.Value);
                return false;
        }
    }

    private static string ReadFolder(SettingSources sources, EffectiveSetting setting, string currentFolder, bool isDemo)
    {
        if (string.IsNullOrWhiteSpace(setting.Value))
        {
            sources.Fault(setting.Name, Texts.Setting_FolderMissing);
            return currentFolder;
        }

        var folder = Path.GetFullPath(setting.Value, currentFolder);
        if (File.Exists(folder))
        {
            sources.Fault(setting.Name, Texts.Setting_FolderIsFile, folder);
        }

        return isDemo ? Path.Combine(folder, DemoFolder) : folder;
    }

    private static DatabaseEngine ReadEngine(SettingSources sources, EffectiveSetting setting)
    {
        switch (setting.Value.Trim().ToLowerInvariant())
        {
            case "sqlite":
                return DatabaseEngine.Sqlite;
            case "postgres":
                return DatabaseEngine.Postgres;
            default:
                sources.Fault(setting.Name, Texts.Setting_NotAnEngine, setting.Value);
                return DatabaseEngine.Sqlite;
        }
    }

    private static string ReadConnection(SettingSources sources, EffectiveSetting setting, DatabaseEngine engine, string folder)
    {
        if (setting.Value.Length == 0)
        {
            if (engine == DatabaseEngine.Postgres)
            {
                sources.Fault(setting.Name, Texts.Setting_ConnectionMissing);
            }

            return new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, DatabaseFile) }.ToString();
        }

        try
        {
            return engine == DatabaseEngine.Postgres
                ? new NpgsqlConnectionStringBuilder(setting.Value).ToString()
                : new SqliteConnectionStringBuilder(setting.Value).ToString();
        }
        catch (Exception malformed) when (malformed is ArgumentException or FormatException or KeyNotFoundException)
        {
            // The driver's own words could repeat the password.
            sources.Fault(setting.Name, Texts.Setting_ConnectionMalformed);
            return "";
        }
    }

    private static List<string> ReadUrls(SettingSources sources, EffectiveSetting setting)
    {
        var urls = Split(setting.Value, ';');
        if (urls.Count == 0)
        {
            sources.Fault(setting.Name, Texts.Setting_UrlsMissing);
        }

        foreach (var url in urls)
        {
            // Kestrel's own * and + mean every address; the rest is an ordinary address without a path.
            var plain = url.Replace("://*", "://localhost", StringComparison.Ordinal).Replace("://+", "://localhost", StringComparison.Ordinal);
            if (!Uri.TryCreate(plain, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https") || address.PathAndQuery != "/")
            {
                sources.Fault(setting.Name, Texts.Setting_NotAUrl, url);
            }
        }

        return urls;
    }

    private static string ReadBasePath(SettingSources sources, EffectiveSetting setting)
    {
        var path = setting.Value.Trim().TrimEnd('/');
        if (path.Length > 0 && (path[0] != '/' || path.Contains("//", StringComparison.Ordinal) || path.Any(c => !char.IsAsciiLetterOrDigit(c) && c is not ('/' or '-' or '_' or '.' or '~'))))
        {
            sources.Fault(setting.Name, Texts.Setting_NotABasePath, setting.Value);
        }

        return path;
    }

    private static string ReadTimeZone(SettingSources sources, EffectiveSetting setting)
    {
        var id = setting.Value.Trim();
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(id, out _))
        {
            sources.Fault(setting.Name, Texts.Setting_NotATimeZone, id);
        }

        return id;
    }

    private static List<string> ReadProxies(SettingSources sources, EffectiveSetting setting)
    {
        var proxies = Split(setting.Value, ',');
        foreach (var proxy in proxies.Where(p => !IPAddress.TryParse(p, out _) && !IPNetwork.TryParse(p, out _)))
        {
            sources.Fault(setting.Name, Texts.Setting_NotAProxy, proxy);
        }

        return proxies;
    }

    private static RecordKey? ReadRecordKey(SettingSources sources, EffectiveSetting setting)
    {
        RecordKey? key = null;
        if (setting.Value.Length == 0 || RecordKey.TryParse(setting.Value, out key))
        {
            return key;
        }

        // A secret: it is not repeated.
        sources.Fault(setting.Name, Texts.Setting_NotARecordKey);
        return null;
    }

    private static List<string> Split(string text, char separator) =>
        [.. text.Split(separator, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)];
}

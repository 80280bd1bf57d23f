using System.Globalization;
using System.Text.Json;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Settings;

/// <summary>
/// Finds the value of each setting: command line first, then the environment, then a file that the environment names, then
/// shopfluids.json in the data folder, then the default.
/// </summary>
internal sealed class SettingSources(IReadOnlyDictionary<string, string> environment, IReadOnlyDictionary<string, string> options)
{
    private readonly Dictionary<string, string> _fromFile = new(StringComparer.Ordinal);
    private readonly List<SettingFault> _faults = [];
    private string _fileName = SettingDefinitions.FileName;

    public IReadOnlyList<SettingFault> Faults => _faults;

    public void Fault(string setting, string pattern, params object?[] values) =>
        _faults.Add(new SettingFault(setting, string.Format(CultureInfo.InvariantCulture, pattern, values)));

    /// <summary>Names in the environment that are ours by their prefix and mean nothing.</summary>
    public void FindUnknown()
    {
        var known = SettingDefinitions.All.SelectMany(d => new[] { d.Name, d.Name + SettingDefinitions.FileSuffix }).ToHashSet();
        foreach (var name in environment.Keys.Where(n => n.StartsWith(SettingDefinitions.Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            if (!known.Contains(name) && !name.StartsWith(SettingDefinitions.TestPrefix, StringComparison.Ordinal))
            {
                Fault(name, Texts.Setting_Unknown);
            }
        }
    }

    /// <summary>Reads shopfluids.json, if it is there. Its own faults are noted with the others.</summary>
    public void ReadFile(string folder)
    {
        _fileName = Path.Combine(folder, SettingDefinitions.FileName);
        if (!File.Exists(_fileName))
        {
            return;
        }

        try
        {
            using var document = JsonDocument.Parse(File.ReadAllText(_fileName));
            if (document.RootElement.ValueKind != JsonValueKind.Object)
            {
                Fault(_fileName, Texts.Setting_FileNotObject);
                return;
            }

            foreach (var property in document.RootElement.EnumerateObject())
            {
                ReadProperty(property);
            }
        }
        catch (JsonException broken)
        {
            Fault(_fileName, Texts.Setting_FileNotJson, (broken.LineNumber ?? 0) + 1);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            Fault(_fileName, Texts.Setting_FileUnreadable, unreadable.Message);
        }
    }

    /// <summary>The value and where it came from; empty when there is none.</summary>
    public EffectiveSetting Find(SettingDefinition definition)
    {
        if (definition.Option is { } option && options.TryGetValue(option, out var given))
        {
            return new EffectiveSetting(definition.Name, given, Texts.Setting_FromCommandLine, definition.IsSecret);
        }

        var pointer = definition.Name + SettingDefinitions.FileSuffix;
        var hasValue = environment.TryGetValue(definition.Name, out var value);
        if (environment.TryGetValue(pointer, out var file))
        {
            if (hasValue)
            {
                Fault(pointer, Texts.Setting_Twice, definition.Name);
            }

            return new EffectiveSetting(definition.Name, ReadPointer(pointer, file) ?? definition.Default ?? "", Say(Texts.Setting_FromPointer, pointer), definition.IsSecret);
        }

        return hasValue && value is not null ? new EffectiveSetting(definition.Name, value, Texts.Setting_FromEnvironment, definition.IsSecret)
            : definition.Key is { } key && _fromFile.TryGetValue(key, out var written) ? new EffectiveSetting(definition.Name, written, _fileName, definition.IsSecret)
            : new EffectiveSetting(definition.Name, definition.Default ?? "", Texts.Setting_FromDefault, definition.IsSecret);
    }

    private void ReadProperty(JsonProperty property)
    {
        var setting = $"{_fileName}: {property.Name}";
        if (SettingDefinitions.All.All(d => d.Key != property.Name))
        {
            Fault(setting, Texts.Setting_Unknown);
        }
        else if (property.Value.ValueKind != JsonValueKind.String)
        {
            Fault(setting, Texts.Setting_FileNotText);
        }
        else
        {
            _fromFile[property.Name] = property.Value.GetString() ?? "";
        }
    }

    // Null when it cannot be read: that is one fault, and the value is no second one.
    private string? ReadPointer(string pointer, string file)
    {
        try
        {
            return File.ReadAllText(file).Trim();
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException or ArgumentException)
        {
            Fault(pointer, Texts.Setting_FileUnreadable, unreadable.Message);
            return null;
        }
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}

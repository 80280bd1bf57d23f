namespace ShopFluids.Web.Settings;

/// <param name="Setting">The name as it was written where the fault is.</param>
/// <param name="Message">What is wrong and what is accepted.</param>
public sealed record SettingFault(string Setting, string Message);

/// <param name="Value">As it was given or by default; secrets are masked where this is shown.</param>
/// <param name="Source">Where it came from, in words.</param>
public sealed record EffectiveSetting(string Name, string Value, string Source, bool IsSecret);

/// <summary>What was found: settings, or all the faults at once.</summary>
/// <param name="Settings">Null when there are faults.</param>
public sealed record SettingsReading(ShopSettings? Settings, IReadOnlyList<SettingFault> Faults, IReadOnlyList<EffectiveSetting> Effective);

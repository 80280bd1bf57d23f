using System.Globalization;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Record;

/// <summary>The address of the record with what is looked for.</summary>
internal static class RecordAddress
{
    public const string Page = "record";
    public const string File = "record/entries.csv";
    public const string FromField = "from";
    public const string ToField = "to";
    public const string WhoField = "who";
    public const string WhatField = "what";
    public const string AboutField = "about";
    public const string BeforeField = "before";

    public static string Of(TrailFilter filter, string path = Page)
    {
        var fields = Fields(filter).Where(f => !string.IsNullOrEmpty(f.Value)).Select(f => $"{f.Name}={Uri.EscapeDataString(f.Value ?? "")}").ToList();
        return fields.Count == 0 ? path : $"{path}?{string.Join('&', fields)}";
    }

    /// <summary>What an address looks for; a day that cannot be read is none.</summary>
    public static TrailFilter Read(string? from, string? to, string? who, string? what, string? about, long? before) =>
        new(Day(from), Day(to), Text(who), Text(what), Text(about), before);

    private static IEnumerable<(string Name, string? Value)> Fields(TrailFilter filter) =>
    [
        (FromField, filter.From is { } from ? DayInput.Write(from) : null),
        (ToField, filter.To is { } to ? DayInput.Write(to) : null),
        (WhoField, filter.Who),
        (WhatField, filter.What),
        (AboutField, filter.About),
        (BeforeField, filter.Before?.ToString(CultureInfo.InvariantCulture)),
    ];

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string? Text(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}

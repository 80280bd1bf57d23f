using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Stores;

/// <summary>Addresses of the stores, relative to the base of the site.</summary>
internal static class StoresAddress
{
    public const string Page = "stores";
    public const string FromField = "from";
    public const string ToField = "to";

    public static string Lot(Guid id, DateOnly? from = null, DateOnly? to = null)
    {
        var fields = Days(from, to);
        return fields.Count == 0 ? $"stores/lots/{id}" : $"stores/lots/{id}?{string.Join('&', fields)}";
    }

    /// <summary>The trace on paper.</summary>
    public static string LotSheet(Guid id, DateOnly? from, DateOnly? to) => $"sheets/lot.pdf?{string.Join('&', Days(from, to).Prepend($"lot={id}"))}";

    private static List<string> Days(DateOnly? from, DateOnly? to) =>
        new[] { (Name: FromField, Day: from), (Name: ToField, Day: to) }.Where(f => f.Day is not null).Select(f => $"{f.Name}={DayInput.Write(f.Day ?? default)}").ToList();
}

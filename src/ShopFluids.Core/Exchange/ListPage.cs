using System.Buffers.Text;
using System.Globalization;
using System.Text;

namespace ShopFluids.Core.Exchange;

/// <summary>Part of a list.</summary>
/// <param name="Next">Where the next part begins; null at the end.</param>
public sealed record ListPage<T>(IReadOnlyList<T> Items, string? Next);

/// <summary>A place in a list that is ordered by time, then by id: it stays right while rows come and go.</summary>
public sealed record ListPlace(DateTime AtUtc, Guid Id)
{
    public const int MostItems = 500;
    public const int UsualItems = 100;

    public override string ToString() =>
        Base64Url.EncodeToString(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{AtUtc.Ticks}:{Id:N}")));

    /// <returns>Null for a text that no list gave out.</returns>
    public static ListPlace? TryRead(string text)
    {
        if (!Base64Url.IsValid(text) || text.Length > 100)
        {
            return null;
        }

        var parts = Encoding.ASCII.GetString(Base64Url.DecodeFromChars(text)).Split(':');
        return parts is [var ticks, var id]
            && long.TryParse(ticks, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at <= DateTime.MaxValue.Ticks
            && Guid.TryParseExact(id, "N", out var guid)
            ? new ListPlace(new DateTime(at, DateTimeKind.Utc), guid)
            : null;
    }

    /// <summary>Cuts a list that was read one item too long.</summary>
    internal static ListPage<T> Cut<T>(List<T> rows, int limit, Func<T, ListPlace> placeOf) =>
        rows.Count > limit
            ? new(rows.GetRange(0, limit), placeOf(rows[limit - 1]).ToString())
            : new(rows, null);
}

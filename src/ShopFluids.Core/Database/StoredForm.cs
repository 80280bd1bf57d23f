using System.Text;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace ShopFluids.Core.Database;

/// <summary>
/// Brings what is about to be stored into a form that both engines hold without change, so that a row read back is the row that the
/// record says: decimals to the scale of their column, text without signs that are none.
/// </summary>
internal static class StoredForm
{
    public static void Apply(EntityEntry entry)
    {
        foreach (var property in entry.Properties)
        {
            // A key is never written anew; JSON columns hold text of our own making.
            if (property.Metadata.IsPrimaryKey() || property.Metadata.GetValueConverter() is not null)
            {
                continue;
            }

            if (property.CurrentValue is decimal number && property.Metadata.GetScale() is { } scale && decimal.Round(number, scale, MidpointRounding.AwayFromZero) is var rounded && rounded != number)
            {
                property.CurrentValue = rounded;
            }
            else if (property.CurrentValue is string text && Clean(text) is var clean && clean != text)
            {
                property.CurrentValue = clean;
            }
        }
    }

    /// <summary>PostgreSQL refuses U+0000, and half a surrogate pair has no UTF-8: each becomes the sign for what cannot be shown.</summary>
    public static string Clean(string text)
    {
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value == 0 || rune == Rune.ReplacementChar)
            {
                return string.Concat(text.EnumerateRunes().Select(r => r.Value == 0 ? Rune.ReplacementChar : r));
            }
        }

        return text;
    }
}

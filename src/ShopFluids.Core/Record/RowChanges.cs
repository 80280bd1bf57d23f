using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace ShopFluids.Core.Record;

/// <summary>Changed rows as an entry of the record tells them: entity, key, what was before of a changed row, and the whole row after.</summary>
internal static class RowChanges
{
    /// <summary>In an order that does not depend on how they were made.</summary>
    public static IEnumerable<string> Of(IEnumerable<EntityEntry> changed) => changed
        .Select(e => (Entry: e, Name: e.Metadata.ShortName(), Key: RowImage.KeyOf(e)))
        .OrderBy(e => e.Name, StringComparer.Ordinal)
        .ThenBy(e => e.Key, StringComparer.Ordinal)
        .Select(e => Describe(e.Entry, e.Name, e.Key));

    private static string Describe(EntityEntry entry, string name, string key)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, RowImage.WriterOptions))
        {
            json.WriteStartObject();
            json.WriteString("entity", name);
            json.WriteString("key", key);
            if (entry.State != EntityState.Added)
            {
                json.WritePropertyName("before");
                RowImage.WriteBefore(json, entry, entry.OriginalValues, p => entry.State == EntityState.Deleted || entry.Property(p.Name).IsModified);
            }

            if (entry.State != EntityState.Deleted)
            {
                json.WritePropertyName("after");
                RowImage.Write(json, entry, entry.CurrentValues);
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length);
    }
}

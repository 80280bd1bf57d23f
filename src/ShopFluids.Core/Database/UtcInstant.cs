using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace ShopFluids.Core.Database;

/// <summary>Instants are UTC to the millisecond on both engines; any other kind of time is refused on the way in.</summary>
internal sealed class UtcInstant() : ValueConverter<DateTime, DateTime>(
    instant => Truncate(instant),
    stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc))
{
    private static DateTime Truncate(DateTime instant) =>
        instant.Kind == DateTimeKind.Utc
            ? new DateTime(instant.Ticks - (instant.Ticks % TimeSpan.TicksPerMillisecond), DateTimeKind.Utc)
            : throw new InvalidOperationException($"An instant of kind {instant.Kind} cannot be stored; convert it to UTC where it is made.");
}

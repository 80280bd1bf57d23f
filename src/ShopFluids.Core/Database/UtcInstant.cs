using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Database;

/// <summary>Instants are UTC to the millisecond on both engines; any other kind of time is refused on the way in.</summary>
internal sealed class UtcInstant() : ValueConverter<DateTime, DateTime>(
    instant => ShopClock.ToMillisecond(instant),
    stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc));

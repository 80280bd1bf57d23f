namespace ShopFluids.Core.DemoData.Commands;

/// <summary>
/// Chance with a seed, the same on every machine and version: SplitMix64 (Steele, Lea, Flood, 2014). Each sump has its own, so
/// that a change at one leaves the others as they are.
/// </summary>
internal sealed class DemoChance
{
    private ulong _state;

    public DemoChance(int seed, string name)
    {
        // FNV-1a: the runtime's own hash differs from start to start.
        _state = 14695981039346656037UL ^ (uint)seed;
        foreach (var sign in name)
        {
            _state = (_state ^ sign) * 1099511628211UL;
        }
    }

    public bool Happens(double probability) => Next() < probability;

    public double Between(double low, double high) => low + ((high - low) * Next());

    /// <summary>About normal, mean 0: the sum of twelve even draws less six.</summary>
    public double Scatter(double standardDeviation)
    {
        var sum = -6.0;
        for (var i = 0; i < 12; i++)
        {
            sum += Next();
        }

        return sum * standardDeviation;
    }

    /// <summary>A UUIDv7 of an instant whose other bits come from here, not from the machine's chance.</summary>
    public Guid NewId(DateTime utc)
    {
        Span<byte> bytes = stackalloc byte[16];
        var milliseconds = new DateTimeOffset(utc).ToUnixTimeMilliseconds();
        System.Buffers.Binary.BinaryPrimitives.WriteInt64BigEndian(bytes, milliseconds << 16);
        System.Buffers.Binary.BinaryPrimitives.WriteUInt64BigEndian(bytes[8..], NextBits());
        var low = NextBits();
        bytes[6] = (byte)(0x70 | (int)(low & 0x0F));
        bytes[7] = (byte)(low >> 8);
        bytes[8] = (byte)(0x80 | (bytes[8] & 0x3F));
        return new Guid(bytes, bigEndian: true);
    }

    private double Next() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    private ulong NextBits()
    {
        _state += 0x9E3779B97F4A7C15UL;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}

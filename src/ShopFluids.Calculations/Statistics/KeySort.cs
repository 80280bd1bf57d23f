namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// The places of numbers in the order of their size, worked out in O(n) by their bits, eight at a time from the lowest up (D. E. Knuth, The
/// Art of Computer Programming 3, 5.2.5, from memory). Few numbers are compared instead: that is quicker for them. What it
/// needs beside the numbers is kept from one sorting to the next.
/// </summary>
/// <param name="count">How many numbers there will be each time.</param>
internal sealed class KeySort(int count)
{
    private const int Few = 256;
    private const int Digits = 8;
    private const int Radix = 256;
    private readonly int[] _counts = new int[count > Few ? Digits * Radix : 0];
    private readonly ulong[] _bits = new ulong[count > Few ? count : 0];
    private readonly ulong[] _spareBits = new ulong[count > Few ? count : 0];
    private readonly int[] _sparePlaces = new int[count > Few ? count : 0];

    /// <summary>Places of the smallest number to the largest; of equal numbers the earlier place first.</summary>
    /// <param name="keys">Finite numbers. They end up sorted.</param>
    public int[] Places(double[] keys)
    {
        var places = new int[keys.Length];
        for (var i = 0; i < places.Length; i++)
        {
            places[i] = i;
        }

        if (keys.Length > Few)
        {
            ByDigits(keys, places);
        }
        else
        {
            Array.Sort(keys, places);
            SortWithinTies(keys, places);
        }

        return places;
    }

    private static void SortWithinTies(double[] keys, int[] places)
    {
        for (var start = 0; start < keys.Length;)
        {
            var end = start + 1;
            while (end < keys.Length && keys[end] == keys[start])
            {
                end++;
            }

            Array.Sort(places, start, end - start);
            start = end;
        }
    }

    private void ByDigits(double[] keys, int[] places)
    {
        var (from, to) = (_bits, _spareBits);
        Array.Clear(_counts);
        for (var i = 0; i < keys.Length; i++)
        {
            // Adding 0 makes a negative zero the same as zero.
            var key = Rising(BitConverter.DoubleToUInt64Bits(keys[i] + 0.0));
            from[i] = key;
            for (var digit = 0; digit < Digits; digit++)
            {
                _counts[(digit * Radix) + (int)((key >> (8 * digit)) & 255)]++;
            }
        }

        var (fromPlaces, toPlaces) = (places, _sparePlaces);
        for (var digit = 0; digit < Digits; digit++)
        {
            var starts = _counts.AsSpan(digit * Radix, Radix);
            if (!Begin(starts, keys.Length))
            {
                continue;
            }

            for (var i = 0; i < from.Length; i++)
            {
                var next = starts[(int)((from[i] >> (8 * digit)) & 255)]++;
                (to[next], toPlaces[next]) = (from[i], fromPlaces[i]);
            }

            (from, to, fromPlaces, toPlaces) = (to, from, toPlaces, fromPlaces);
        }

        if (fromPlaces != places)
        {
            fromPlaces.CopyTo(places, 0);
        }

        for (var i = 0; i < keys.Length; i++)
        {
            keys[i] = BitConverter.UInt64BitsToDouble(Back(from[i]));
        }
    }

    // Turns counts into where each digit begins; false where all numbers have the same digit.
    private static bool Begin(Span<int> counts, int total)
    {
        var start = 0;
        for (var digit = 0; digit < counts.Length; digit++)
        {
            if (counts[digit] == total)
            {
                return false;
            }

            (counts[digit], start) = (start, start + counts[digit]);
        }

        return true;
    }

    // Bits that rise with the number: the sign turned over, and all others with it where the number is negative.
    private static ulong Rising(ulong bits) => bits ^ ((ulong)((long)bits >> 63) | 0x8000_0000_0000_0000UL);

    private static ulong Back(ulong rising) => rising ^ (((ulong)((long)~rising >> 63)) | 0x8000_0000_0000_0000UL);
}

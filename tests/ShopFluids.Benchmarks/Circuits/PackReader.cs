using System.Buffers.Binary;
using System.Text;

namespace ShopFluids.Benchmarks.Circuits;

/// <summary>Reads as much of MessagePack as a circuit sends.</summary>
internal sealed class PackReader(ReadOnlyMemory<byte> bytes)
{
    private int _at;

    public int ReadArray() => ReadHead() switch
    {
        var head and >= 0x90 and <= 0x9f => head & 0x0f,
        0xdc => (int)ReadNumber(2),
        var head => throw Unexpected(head),
    };

    public long ReadInteger() => ReadHead() switch
    {
        var head and <= 0x7f => head,
        var head and >= 0xe0 => (sbyte)head,
        var head and >= 0xcc and <= 0xcf => ReadNumber(1 << (head - 0xcc)),
        0xd0 => (sbyte)ReadNumber(1),
        0xd1 => (short)ReadNumber(2),
        0xd2 => (int)ReadNumber(4),
        0xd3 => ReadNumber(8),
        var head => throw Unexpected(head),
    };

    /// <summary>Null for nothing.</summary>
    public string? ReadText() => ReadHead() switch
    {
        0xc0 => null,
        var head and >= 0xa0 and <= 0xbf => Encoding.UTF8.GetString(Take(head & 0x1f).Span),
        0xd9 => Encoding.UTF8.GetString(Take((int)ReadNumber(1)).Span),
        0xda => Encoding.UTF8.GetString(Take((int)ReadNumber(2)).Span),
        0xdb => Encoding.UTF8.GetString(Take((int)ReadNumber(4)).Span),
        var head => throw Unexpected(head),
    };

    public ReadOnlyMemory<byte> ReadBytes() => ReadHead() switch
    {
        0xc4 => Take((int)ReadNumber(1)),
        0xc5 => Take((int)ReadNumber(2)),
        0xc6 => Take((int)ReadNumber(4)),
        var head => throw Unexpected(head),
    };

    /// <summary>Headers, which nobody sets.</summary>
    public void SkipEmptyMap()
    {
        if (ReadHead() is var head and not 0x80)
        {
            throw Unexpected(head);
        }
    }

    private int ReadHead() => bytes.Span[_at++];

    private ReadOnlyMemory<byte> Take(int count)
    {
        _at += count;
        return bytes.Slice(_at - count, count);
    }

    private long ReadNumber(int size)
    {
        var number = Take(size).Span;
        return size switch
        {
            1 => number[0],
            2 => BinaryPrimitives.ReadUInt16BigEndian(number),
            4 => BinaryPrimitives.ReadUInt32BigEndian(number),
            _ => BinaryPrimitives.ReadInt64BigEndian(number),
        };
    }

    private static InvalidDataException Unexpected(int head) => new($"0x{head:x2} was not expected here.");
}

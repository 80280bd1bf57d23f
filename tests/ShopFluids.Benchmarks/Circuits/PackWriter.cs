using System.Buffers;
using System.Buffers.Binary;
using System.Text;

namespace ShopFluids.Benchmarks.Circuits;

/// <summary>Writes the calls of a browser to a circuit as MessagePack, each with its length before it.</summary>
internal static class PackWriter
{
    private const byte Invocation = 1;

    /// <param name="invocationId">Null where no answer is wanted.</param>
    public static ReadOnlyMemory<byte> Call(string? invocationId, string target, params object?[] arguments)
    {
        var body = new ArrayBufferWriter<byte>();
        body.Write<byte>([0x95, Invocation, 0x80]);
        Value(body, invocationId);
        Value(body, target);
        body.Write<byte>([(byte)(0x90 | arguments.Length)]);
        foreach (var argument in arguments)
        {
            Value(body, argument);
        }

        var framed = new ArrayBufferWriter<byte>();
        var length = body.WrittenCount;
        do
        {
            framed.Write<byte>([(byte)((length & 0x7f) | (length > 0x7f ? 0x80 : 0))]);
            length >>= 7;
        }
        while (length > 0);
        framed.Write(body.WrittenSpan);
        return framed.WrittenMemory;
    }

    private static void Value(ArrayBufferWriter<byte> body, object? value)
    {
        switch (value)
        {
            case null:
                body.Write<byte>([0xc0]);
                break;
            case bool flag:
                body.Write<byte>([(byte)(flag ? 0xc3 : 0xc2)]);
                break;
            case long number:
                Span<byte> integer = stackalloc byte[9];
                integer[0] = 0xd3;
                BinaryPrimitives.WriteInt64BigEndian(integer[1..], number);
                body.Write(integer);
                break;
            case string text:
                var bytes = Encoding.UTF8.GetBytes(text);
                Span<byte> head = stackalloc byte[5];
                head[0] = 0xdb;
                BinaryPrimitives.WriteInt32BigEndian(head[1..], bytes.Length);
                body.Write(head);
                body.Write(bytes);
                break;
            default:
                throw new ArgumentException($"{value.GetType().Name} is not written.", nameof(value));
        }
    }
}

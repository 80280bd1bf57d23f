using ShopFluids.Core.Record;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

/// <summary>
/// The hash of an entry never changes, or every record that exists would look tampered with. The hashes were worked out outside the program, with
/// SHA-256 over the JSON array of the fields as System.Text.Json writes it without options.
/// </summary>
public sealed class RecordEntryTests
{
    private const string Changes = """[{"entity":"Reading","key":"k","after":{"Note":"5 < 6 & 'x' + \t \u007f ü € 😀"}}]""";

    private static readonly DateTime At = new(2026, 3, 2, 7, 0, 0, 123, DateTimeKind.Utc);

    [Fact]
    public void Hash_OfTheProgram_IsTheOneOfAllTimes() =>
        Assert.Equal("aa330f4788dec8675ab41105ed71c3b3d5174714b494672ef636fdcf548a6d49", Entry(new Actor(null, "Program"), "S-07").Hash);

    [Fact]
    public void Hash_OfAPersonAtAStation_IsTheOneOfAllTimes() => Assert.Equal(
        "0a1f94ae3f1149f8fe78a80154566e8dbe19ad505cf5f4a35a644534e85fd109",
        Entry(new Actor(new Guid(7, 0, 0, new byte[8]), "K. Lind", new ActorStation(new Guid(9, 0, 0, new byte[8]), "Tablet 1")), "Grö<ße>").Hash);

    private static RecordEntry Entry(Actor actor, string subject) => new(42, new Act(ActCodes.ReadingStored, actor, At, subject), Changes.Replace("\\u007f", "\u007f", StringComparison.Ordinal), new string('a', 64));
}

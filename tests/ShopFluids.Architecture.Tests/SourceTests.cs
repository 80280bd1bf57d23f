using System.Text.RegularExpressions;

namespace ShopFluids.Architecture.Tests;

public sealed partial class SourceTests
{
    [Fact]
    public void Sources_Warnings_AreNeverSwitchedOff() =>
        Assert.Empty(Lines("*.cs", line => line.Contains("#pragma warning", StringComparison.Ordinal) || line.Contains("#nullable disable", StringComparison.Ordinal) || line.Contains("SuppressMessage", StringComparison.Ordinal)));

    [Fact]
    public void Sources_OpenEnds_NoneAreLeft() =>
        Assert.Empty(Lines("*.cs", line => OpenEnd().IsMatch(line)));

    [Fact]
    public void Sources_NullForgiving_IsNotUsed() =>
        Assert.Empty(Lines("*.cs", line => !line.TrimStart().StartsWith("//", StringComparison.Ordinal) && NullForgiving().IsMatch(WithoutTexts(line))));

    [Fact]
    public void Sources_RawSql_IsTheProvidersOnly() =>
        Assert.All(Lines("*.cs", line => RawSql().IsMatch(line)), l => Assert.StartsWith("src/ShopFluids.Data.", l, StringComparison.Ordinal));

    // A tablet goes out of reach right after the press: what was sent whole is done whole.
    [Fact]
    public void Sources_Writes_AreNotBrokenOffWithTheConnection() =>
        Assert.Empty(Lines("*.cs", line => WriteTiedToTheConnection().IsMatch(line)));

    // What an act raises in the stores, a replay looks for only at the acts that it knows.
    [Fact]
    public void Acts_ThatLookAtTheStores_AreReplayed()
    {
        var replayed = ActCode().Matches(File.ReadAllText(Repository.Sources("ShopReplay.cs").Single())).Select(m => m.Value).ToHashSet();
        var looking = Repository.Sources("*.cs").Select(f => File.ReadAllText(f)).Where(s => LookAtTheStores().IsMatch(s)).SelectMany(s => ActCode().Matches(s)).Select(m => m.Value).ToList();
        Assert.NotEmpty(looking);
        Assert.Subset(replayed, looking.ToHashSet());
    }

    [Fact]
    public void Files_Namespace_IsTheFolder() =>
        Assert.Empty(Repository.Sources("*.cs")
            .Select(f => (File: Repository.Relative(f), Namespace: DeclaredNamespace().Match(File.ReadAllText(f)).Groups["name"].Value))
            .Where(f => f.Namespace.Length > 0 && f.Namespace != ExpectedNamespace(f.File))
            .Select(f => $"{f.File}: {f.Namespace}"));

    [Fact]
    public void Names_OfFoldersAndFiles_SayAnIdea() =>
        Assert.DoesNotContain(Repository.Sources("*.cs").Select(Repository.Relative), f => VagueName().IsMatch(f));

    [Fact]
    public void Files_Length_StaysReadable() =>
        Assert.Empty(Repository.Sources("*.cs").Where(f => File.ReadLines(f).Count() > 250)
            .Concat(Repository.Sources("*.razor").Where(f => File.ReadLines(f).Count() > 150))
            .Select(Repository.Relative));

    [Fact]
    public void Root_Entries_AreTheAgreedOnes()
    {
        string[] agreed =
        [
            "BannedSymbols.txt", "DEVELOPERS.md", "Directory.Build.props", "Directory.Packages.props", "README.md", "ShopFluids.sln",
            "demo-seed", "deploy", "docker-compose.yml", "docs", "dotnet-tools.json", "global.json", "src", "tests",
        ];
        var found = Directory.EnumerateFileSystemEntries(Repository.Root).Select(e => Path.GetFileName(e)).Where(e => !e.StartsWith('.') && e is not ("data" or "artifacts"));
        Assert.Equal(agreed, found.Order(StringComparer.Ordinal));
    }

    // No analyzer asks for it, and the formatter would have to build everything once more.
    [Fact]
    public void Usings_OfEveryFile_StandInOrder() =>
        Assert.Empty(Repository.Sources("*.cs").Concat(Repository.Tests("*.cs"))
            .Where(f => File.ReadLines(f).Select(l => Using().Match(l)).Where(m => m.Success).Select(m => m.Groups["name"].Value).ToList() is var usings && !usings.SequenceEqual(usings.OrderBy(OrderOf, StringComparer.Ordinal)))
            .Select(Repository.Relative));

    // What the runtime brings stands first; a point comes before every letter.
    private static string OrderOf(string name) => $"{(name == "System" || name.StartsWith("System.", StringComparison.Ordinal) ? 0 : 1)}{name.ToUpperInvariant().Replace('.', ' ')}";

    private static IEnumerable<string> Lines(string pattern, Func<string, bool> isWanted) =>
        Repository.Sources(pattern).SelectMany(f => File.ReadLines(f).Select((line, i) => (f, line, i)).Where(l => isWanted(l.line)).Select(l => $"{Repository.Relative(l.f)}:{l.i + 1}: {l.line.Trim()}"));

    private static string ExpectedNamespace(string file)
    {
        var parts = (Path.GetDirectoryName(file) ?? "").Replace('\\', '/').Split('/').Skip(1);
        return string.Join('.', parts);
    }

    private static string WithoutTexts(string line) => Texts().Replace(line, "\"\"");

    [GeneratedRegex(@"\b(TODO|FIXME|HACK|NotImplementedException)\b", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex OpenEnd();

    // A value, then an exclamation mark that is neither "!=" nor the start of a negation.
    [GeneratedRegex(@"[\w\)\]>]!(?![=])[\.\[\(;,\)\s]|\bnull!|\bdefault!", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex NullForgiving();

    [GeneratedRegex(@"\bHandleAsync\(.*RequestAborted", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex WriteTiedToTheConnection();

    [GeneratedRegex(@"FromSql|ExecuteSql|SqlQuery", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex RawSql();

    [GeneratedRegex(@"^using (?<name>[\w\.]+);", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Using();

    [GeneratedRegex(@"^namespace (?<name>[\w\.]+);", RegexOptions.ExplicitCapture | RegexOptions.Multiline, 1000)]
    private static partial Regex DeclaredNamespace();

    [GeneratedRegex(@"(Helpers?|Utils?|Utilities|Common|Misc|Managers?)(/|\.cs$)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex VagueName();

    [GeneratedRegex(@"ActCodes\.\w+", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ActCode();

    [GeneratedRegex(@"ShopFindings\.ChangesAsync\(|\bNoticeAsync\(write", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex LookAtTheStores();

    [GeneratedRegex("\"[^\"]*\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Texts();
}

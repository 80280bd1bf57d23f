using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace ShopFluids.Architecture.Tests;

public sealed partial class TextTests
{
    [Fact]
    public void Markup_TextsBetweenTags_ComeFromTheResources()
    {
        var found = string.Join('\n', Repository.Sources("*.razor").SelectMany(Literals));
        Assert.True(found.Length == 0, found);
    }

    [Fact]
    public void Texts_EveryKey_IsUsed()
    {
        var sources = string.Concat(Repository.Sources("*.cs").Concat(Repository.Sources("*.razor")).Select(File.ReadAllText));
        var used = Key().Matches(sources).Select(m => m.Groups["key"].Value).ToHashSet(StringComparer.Ordinal);
        var keys = XDocument.Load(Repository.PathOf("src/ShopFluids.Core/Wording/Texts.resx")).Descendants("data").Select(d => (string?)d.Attribute("name") ?? "").ToList();
        Assert.NotEmpty(keys);
        Assert.DoesNotContain(keys, k => !used.Contains(k));
    }

    [Fact]
    public void Rules_EachOne_HasItsPage() =>
        Assert.All(
            Rules.Registry.RuleRegistry.All.Select(r => r.Code).Concat([Rules.Limit.LimitRule.Code, Rules.FirstFillDrop.FirstFillDropRule.Code, Rules.OverdueTest.OverdueTestRule.Code]),
            code => Assert.True(File.Exists(Repository.PathOf($"docs/rules/{code}.md")), $"docs/rules/{code}.md is missing"));

    [Fact]
    public void Packages_EachOne_HasItsLicenceWrittenDown()
    {
        var page = File.ReadAllText(Repository.PathOf("docs/decisions/packages.md"));
        var packages = XDocument.Load(Repository.PathOf("Directory.Packages.props")).Descendants("PackageVersion").Select(p => (string?)p.Attribute("Include") ?? "");
        Assert.DoesNotContain(packages, p => !page.Contains(p, StringComparison.Ordinal) && !page.Contains(Family(p), StringComparison.Ordinal));
    }

    // "Microsoft.EntityFrameworkCore (Design, Relational, Sqlite)" stands for its members.
    private static string Family(string package) =>
        package.StartsWith("Microsoft.EntityFrameworkCore.", StringComparison.Ordinal) ? "Microsoft.EntityFrameworkCore (" : package;

    private static IEnumerable<string> Literals(string file)
    {
        var markup = File.ReadAllText(file);
        markup = Directive().Replace(markup, "");
        markup = CodeBlock().Replace(markup, "");
        markup = Comment().Replace(markup, "");
        markup = Expression().Replace(markup, "");
        markup = CaseLine().Replace(markup, "");

        // The program's own name is the same in every language.
        markup = markup.Replace("ShopFluids", "", StringComparison.Ordinal);
        return BetweenTags().Matches(markup).Select(m => m.Groups["text"].Value.Trim()).Where(t => !ControlLine().IsMatch(t))
            .Concat(Attributes().Matches(markup).Select(m => m.Groups["text"].Value))
            .Where(t => Word().IsMatch(t))
            .Select(t => $"{Repository.Relative(file)}: {t}");
    }

    [GeneratedRegex(@"Texts\.(?<key>[A-Z]\w+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Key();

    [GeneratedRegex(@"^@(page|using|inherits|attribute|inject|implements|layout|typeparam|rendermode|namespace)\s.*$", RegexOptions.ExplicitCapture | RegexOptions.Multiline, 1000)]
    private static partial Regex Directive();

    [GeneratedRegex(@"@(code\s*)?\{(?>[^{}]+|(?<open>\{)|(?<-open>\}))*(?(open)(?!))\}", RegexOptions.ExplicitCapture, 2000)]
    private static partial Regex CodeBlock();

    [GeneratedRegex(@"@\*[\s\S]*?\*@|<!--[\s\S]*?-->", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Comment();

    [GeneratedRegex(@"@\((?>[^()]+|(?<open>\()|(?<-open>\)))*(?(open)(?!))\)|@[\w\.]+(\((?>[^()]+|(?<open>\()|(?<-open>\)))*(?(open)(?!))\))?([\.\w]+)?(\((?>[^()]+|(?<open>\()|(?<-open>\)))*(?(open)(?!))\))?", RegexOptions.ExplicitCapture, 2000)]
    private static partial Regex Expression();

    [GeneratedRegex(@"^\s*(case .*|default):\s*$", RegexOptions.ExplicitCapture | RegexOptions.Multiline, 1000)]
    private static partial Regex CaseLine();

    [GeneratedRegex(@">(?<text>[^<>{}@]+)<", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex BetweenTags();

    [GeneratedRegex(@"\s(aria-label|aria-description|\w*Label|[tT]itle|placeholder|alt)=""(?<text>[^""@]+)""", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Attributes();

    [GeneratedRegex(@"\p{L}{2,}", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Word();

    // What is left of a Razor statement is code.
    [GeneratedRegex(@"^[\(\[]|[;=]|\b(else|if|foreach|in|var|new|switch|case)\b", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ControlLine();
}

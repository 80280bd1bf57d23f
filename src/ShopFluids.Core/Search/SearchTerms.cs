using System.Globalization;
using System.Text;

namespace ShopFluids.Core.Search;

/// <summary>What somebody typed to find something: words that all must occur, in whatever case and order, accents aside.</summary>
internal sealed class SearchTerms
{
    private const int MostWords = 6;
    private const CompareOptions Loosely = CompareOptions.IgnoreCase | CompareOptions.IgnoreNonSpace;
    private static readonly CompareInfo Compare = CultureInfo.InvariantCulture.CompareInfo;
    private readonly string _whole;
    private readonly string[] _words;

    private SearchTerms(string[] words)
    {
        _words = words;
        _whole = string.Join(' ', words);
    }

    public bool IsEmpty => _words.Length == 0;

    public static SearchTerms Of(string text) => new([.. text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Take(MostWords)]);

    /// <summary>How well something fits: 0 by its whole name, 1 by its beginning, 2 by the beginning of one of its words, 3 inside, 4 by what else is known of it. Null where a word occurs nowhere.</summary>
    /// <param name="name">Under which it is listed.</param>
    /// <param name="more">What else it is known by.</param>
    public int? Rank(string name, params IEnumerable<string> more)
    {
        if (Compare.Compare(name, _whole, Loosely) == 0)
        {
            return 0;
        }

        if (Compare.IsPrefix(name, _whole, Loosely))
        {
            return 1;
        }

        if (Array.TrueForAll(_words, w => Compare.IndexOf(name, w, Loosely) >= 0))
        {
            return BeginsAWord(name) ? 2 : 3;
        }

        return Array.TrueForAll(_words, w => Compare.IndexOf(name, w, Loosely) >= 0 || more.Any(m => Compare.IndexOf(m, w, Loosely) >= 0)) ? 4 : null;
    }

    /// <summary>The same for something with a tag, which people shorten: s7 and s07 for S-07.</summary>
    public int? RankTag(string tag, params IEnumerable<string> more)
    {
        var shortened = Shortened(tag);
        return _words.Length == 1 && shortened.Any(s => Compare.Compare(s, _whole, Loosely) == 0) ? 0 : Rank(tag, [.. more, .. shortened]);
    }

    /// <summary>A tag without its signs, and without the zeros before its numbers.</summary>
    public static IReadOnlyList<string> Shortened(string tag)
    {
        var bare = new StringBuilder();
        var plain = new StringBuilder();
        var afterDigit = false;
        foreach (var sign in tag.Where(char.IsLetterOrDigit))
        {
            bare.Append(sign);
            if (sign != '0' || afterDigit)
            {
                plain.Append(sign);
            }

            afterDigit = char.IsDigit(sign) && (afterDigit || sign != '0');
        }

        return [bare.ToString(), plain.ToString()];
    }

    private bool BeginsAWord(string name) => name.Split(' ').Any(part => Compare.IsPrefix(part, _words[0], Loosely));
}

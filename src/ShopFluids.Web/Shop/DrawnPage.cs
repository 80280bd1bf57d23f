using System.Text;

namespace ShopFluids.Web.Shop;

/// <summary>A page as it was drawn, cut where something stands that is another each time it is sent.</summary>
internal sealed class DrawnPage
{
    private readonly ReadOnlyMemory<byte> _html;
    private readonly List<Cut> _cuts = [];

    /// <param name="html">The page, UTF-8.</param>
    /// <param name="places">What stands in it this time and is another next time; ASCII that needs no escaping.</param>
    /// <exception cref="ArgumentException">One of them does not stand in the page: the next reader would be given what was meant for this one.</exception>
    public DrawnPage(ReadOnlyMemory<byte> html, params IReadOnlyList<string> places)
    {
        ArgumentNullException.ThrowIfNull(places);
        _html = html;
        for (var place = 0; place < places.Count; place++)
        {
            var text = Encoding.ASCII.GetBytes(places[place]);
            var before = _cuts.Count;
            for (int from = 0, at; text.Length > 0 && (at = html.Span[from..].IndexOf(text)) >= 0; from += at + text.Length)
            {
                _cuts.Add(new(from + at, text.Length, place));
            }

            if (_cuts.Count == before)
            {
                throw new ArgumentException($"“{places[place]}” does not stand in the page.", nameof(places));
            }
        }

        _cuts.Sort((one, other) => one.At.CompareTo(other.At));
    }

    /// <param name="places">What stands in it now, in the same order; ASCII, and encoded for HTML by whoever gives it.</param>
    public byte[] With(params IReadOnlyList<string> places)
    {
        ArgumentNullException.ThrowIfNull(places);
        var page = new byte[_html.Length + _cuts.Sum(c => places[c.Place].Length - c.Length)];
        var (from, to) = (0, 0);
        foreach (var cut in _cuts)
        {
            _html.Span[from..cut.At].CopyTo(page.AsSpan(to));
            to += cut.At - from;
            to += Encoding.ASCII.GetBytes(places[cut.Place], page.AsSpan(to));
            from = cut.At + cut.Length;
        }

        _html.Span[from..].CopyTo(page.AsSpan(to));
        return page;
    }

    private sealed record Cut(int At, int Length, int Place);
}

using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>What a word means, drawn: so much smells, foams, or has settled. Drawn once, as <see cref="Mark"/> is.</summary>
public static class WordPicture
{
    private static readonly ConcurrentDictionary<(string Parameter, int Grade), MarkupString> Drawn = new();

    /// <param name="grade">0 for nothing, one more for each word.</param>
    public static MarkupString Of(string parameter, int grade) => Drawn.GetOrAdd((parameter, grade), static picture =>
        new($"""<svg class="wp" viewBox="0 0 48 28" aria-hidden="true">{string.Concat(Enumerable.Range(0, picture.Grade).Select(i => Step(picture.Parameter, i)))}<path d="M2 25h44"></path></svg>"""));

    private static string Step(string parameter, int i) => parameter switch
    {
        ParameterCodes.Odour => string.Create(CultureInfo.InvariantCulture, $"""<path d="M{6 + (i * 14)} 20q-4-5 0-9t0-8"></path>"""),
        ParameterCodes.Foam => string.Create(CultureInfo.InvariantCulture, $"""<circle cx="{10 + (i * 14)}" cy="{17 - (i % 2 * 4)}" r="6"></circle>"""),
        _ => string.Create(CultureInfo.InvariantCulture, $"""<path class="full" d="M{3 + (i * 3)} {24 - (i * 6)}h{42 - (i * 6)}v-4h-{42 - (i * 6)}z"></path>"""),
    };
}

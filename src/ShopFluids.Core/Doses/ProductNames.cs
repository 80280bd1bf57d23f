using System.Text;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Doses;

/// <summary>The names of products, as labels print them and people type them: what a label allows hangs on the product, not on its spelling.</summary>
public static class ProductNames
{
    /// <summary>As it is stored: no white space at its ends, one space for any within.</summary>
    public static string Kept(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>The same for all spellings of one product: white space, capitals and the forms that Unicode has of one character (NFKC) tell nothing apart.</summary>
    public static string KeyOf(string name)
    {
        ArgumentNullException.ThrowIfNull(name);

        // Half of a surrogate pair has no such form; it is refused as text.
        return TextChecks.IsStorable(name) ? Kept(name.Normalize(NormalizationForm.FormKC)).ToUpperInvariant() : name;
    }

    internal static bool AreSame(string one, string other) => KeyOf(one) == KeyOf(other);

    /// <summary>The spelling under which the product is known, or the name itself where it is new.</summary>
    /// <param name="known">One spelling for each product.</param>
    internal static string Known(string name, IEnumerable<string> known) => known.FirstOrDefault(k => AreSame(k, name)) ?? name;
}

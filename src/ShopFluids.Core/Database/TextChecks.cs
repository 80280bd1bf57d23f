namespace ShopFluids.Core.Database;

/// <summary>What holds for every text that people type: its length, and that both engines can keep it.</summary>
public static class TextChecks
{
    /// <summary>Names a text that is missing, too long, or holds what cannot be stored; spaces alone are missing.</summary>
    public static void Check(List<FieldError> errors, string field, string? text, int maximum, bool isRequired = true)
    {
        ArgumentNullException.ThrowIfNull(errors);
        var typed = text ?? "";
        if (!IsStorable(typed))
        {
            errors.Add(new(field, FieldProblem.NotText));
        }
        else if (isRequired && string.IsNullOrWhiteSpace(typed))
        {
            errors.Add(new(field, FieldProblem.Missing));
        }
        else if (typed.Length > maximum)
        {
            errors.Add(new(field, FieldProblem.TooLong, typed.Length, isRequired ? 1 : 0, maximum));
        }
    }

    /// <summary>PostgreSQL keeps no U+0000, and half of a surrogate pair has no form in UTF-8: refused on both engines alike.</summary>
    public static bool IsStorable(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\0' || (char.IsSurrogate(text[i]) && !char.IsSurrogatePair(text, i)))
            {
                return false;
            }

            i += char.IsHighSurrogate(text[i]) ? 1 : 0;
        }

        return true;
    }
}

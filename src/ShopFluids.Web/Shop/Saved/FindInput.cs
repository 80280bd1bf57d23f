using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>What was found, as it was typed, in the person's units.</summary>
public sealed record FindInput(string Value, string Note)
{
    public const string ValueName = "found";
    public const string NoteName = "foundNote";

    public static FindInput Empty { get; } = new("", "");

    public static FindInput Read(FormPost post)
    {
        ArgumentNullException.ThrowIfNull(post);
        return new(post.Text(ValueName), post.Text(NoteName));
    }

    /// <summary>The unit beside the box; empty for a grade.</summary>
    public static string UnitOf(FindQuestion asked, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(asked);
        return QuantityInput.OfUnit(asked.Unit) is var kind and not QuantityKind.Number ? QuantityInput.Unit(kind, units) : asked.Unit;
    }

    /// <summary>What was found in L, mm or min, or what is wrong with the number.</summary>
    /// <param name="kind">The kind of work; null when it is not known any more.</param>
    /// <param name="sump">Whose range is named where it is no number; null when it is not known.</param>
    /// <param name="units">The person's units.</param>
    public (TypedFind Find, FieldError? Fault) For(TaskKind? kind, Sump? sump, UnitSystem units)
    {
        var asked = kind is { } known ? FindQuestion.Of(known) : null;
        if (Value.Length == 0)
        {
            return (new(asked?.What, null, Note), null);
        }

        return !QuantityInput.IsAmbiguous(Value) && QuantityInput.TryRead(Value, QuantityInput.OfUnit(asked?.Unit ?? ""), units, out var value)
            ? (new(asked?.What, value, Note), null)
            : (new(asked?.What, null, Note), new(asked?.What ?? FindNames.Note, QuantityInput.ProblemOf(Value), Low: 0, High: asked?.MostIn(sump) ?? 0, Unit: asked?.Unit, Detail: Value.Length > 30 ? Value[..30] : Value));
    }
}

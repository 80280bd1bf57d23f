using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>What was added, as it was typed, in the person's units.</summary>
/// <param name="AsRecipe">The recipe's own amounts were added; nothing was typed.</param>
public sealed record AdditionForm(Guid Id, bool AsRecipe, string Water, string Concentrate, string Removed, string Lot, string OverrideReason)
{
    public const string IdName = "id";
    public const string AsRecipeName = "asRecipe";
    public const string WaterName = "waterLitres";
    public const string ConcentrateName = "concentrateLitres";
    public const string RemovedName = "removedLitres";
    public const string LotName = "lot";
    public const string OverrideName = "overrideReason";
    public const string ConfirmName = "confirm";

    /// <summary>The answer that what is asked about was so, as it came back; of other amounts one is asked anew.</summary>
    public string Confirmed { get; init; } = "";

    /// <summary>That answer for these amounts.</summary>
    public string Confirmation => $"{Water}/{Concentrate}/{Removed}";

    /// <summary>These very amounts were asked about, and were so.</summary>
    public bool IsConfirmed => Confirmed == Confirmation;

    public static AdditionForm Fresh(Guid id) => new(id, false, "", "", "", "", "");

    /// <summary>The recipe's amounts as they would be typed, to be corrected by what was really added; empty boxes without a recipe.</summary>
    public static AdditionForm Of(Guid id, TopUpRecipe? recipe, Guid? lot, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return recipe is null ? Fresh(id) : new(id, false, Typed(recipe.WaterLitres, format), Typed(recipe.ConcentrateLitres, format), Typed(recipe.RemoveLitres, format), lot?.ToString() ?? "", "");
    }

    public static AdditionForm Read(FormPost post, Guid freshId) => new(
        Guid.TryParse(post.Text(IdName), out var id) && id != Guid.Empty ? id : freshId,
        post.Text(AsRecipeName) == "1",
        post.Text(WaterName),
        post.Text(ConcentrateName),
        post.Text(RemovedName),
        post.Text(LotName),
        post.Text(OverrideName))
    {
        Confirmed = post.Text(ConfirmName),
    };

    /// <summary>The amounts in litres, or what is wrong with them; an empty box is nothing added.</summary>
    public Amounts AmountsIn(UnitSystem units, TopUpRecipe? recipe)
    {
        if (AsRecipe && recipe is not null)
        {
            return new(Litres(recipe.WaterLitres), Litres(recipe.ConcentrateLitres), Litres(recipe.RemoveLitres), []);
        }

        var faults = new List<FieldError>();
        return new(Read(WaterName, Water, units, faults), Read(ConcentrateName, Concentrate, units, faults), Read(RemovedName, Removed, units, faults), faults);
    }

    /// <summary>The addition as the shop records it.</summary>
    /// <param name="taskId">The adjustment that is ticked off with it; being open still, it shows that nobody has poured it.</param>
    public RecordAddition ToCommand(Amounts amounts, string sumpTag, DateTime atUtc, Guid? readingId, Guid? taskId = null)
    {
        ArgumentNullException.ThrowIfNull(amounts);
        return new(
            Id,
            sumpTag,
            atUtc,
            amounts.WaterLitres,
            amounts.ConcentrateLitres,
            amounts.RemovedLitres,
            Guid.TryParse(Lot, out var lot) ? lot : null,
            readingId,
            OverrideReason.Length == 0 ? null : OverrideReason,
            taskId,
            AsRecipe && taskId is null)
        {
            MayBeDoubted = !AsRecipe && !IsConfirmed,
        };
    }

    /// <summary>What is wrong, by the field that it is wrong in.</summary>
    public static IReadOnlyDictionary<string, string> FaultsByField(IEnumerable<FieldError> errors, Sentences sentences) =>
        errors.GroupBy(e => e.Field).ToDictionary(g => g.Key, g => string.Join(' ', g.Select(sentences.Field)), StringComparer.Ordinal);

    // Nothing is an empty box, and no separator of thousands stands where it would be refused when sent back.
    private static string Typed(double litres, ShopFormat format) => litres <= 0 ? "" : format.VolumeNumber(litres).Replace(format.Culture.NumberFormat.NumberGroupSeparator, "", StringComparison.Ordinal);

    private static decimal Read(string field, string text, UnitSystem units, List<FieldError> faults)
    {
        if (text.Length == 0)
        {
            return 0;
        }

        if (QuantityInput.IsAmbiguous(text) || !NumberInput.TryRead(text, out var value))
        {
            faults.Add(new(field, QuantityInput.ProblemOf(text), Low: 0, High: RecordAdditionHandler.MaximumLitres, Unit: "L", Detail: text.Length > 30 ? text[..30] : text));
            return 0;
        }

        return units == UnitSystem.UsCustomary ? Litres(VolumeUnits.LitresFromUsGallons((double)decimal.Clamp(value, -1_000_000, 1_000_000))) : value;
    }

    private static decimal Litres(double litres) => decimal.Round((decimal)litres, 3, MidpointRounding.AwayFromZero);

    public sealed record Amounts(decimal WaterLitres, decimal ConcentrateLitres, decimal RemovedLitres, IReadOnlyList<FieldError> Faults);
}

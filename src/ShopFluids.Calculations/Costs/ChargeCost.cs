namespace ShopFluids.Calculations.Costs;

/// <summary>An amount of something and its price.</summary>
/// <param name="Amount">0 to 1 000 000, in any unit.</param>
/// <param name="PricePerUnit">0 to 1 000 000 of the site's currency for one of that unit.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record Priced(decimal Amount, decimal PricePerUnit)
{
    private const decimal Most = 1_000_000;

    /// <summary>The amount.</summary>
    public decimal Amount { get; } = Money.Amount(Amount, Most, "of any one unit", nameof(Amount));

    /// <summary>Price of one.</summary>
    public decimal PricePerUnit { get; } = Money.Amount(PricePerUnit, Most, "of the currency", nameof(PricePerUnit));

    /// <summary>Amount times price, not rounded.</summary>
    public decimal Cost => Amount * PricePerUnit;
}

/// <summary>What a charge has cost, part by part. Exact decimals; rounding to cents is left to whoever shows it.</summary>
/// <param name="Concentrate">Litres of concentrate.</param>
/// <param name="Water">Litres of make-up water, softening included in the price.</param>
/// <param name="Additives">Litres of additives and cleaner.</param>
/// <param name="Waste">Litres handed to the disposer.</param>
/// <param name="Labour">Hours of people.</param>
/// <param name="Downtime">Hours in which the machine could not cut.</param>
public sealed record ChargeCost(Priced Concentrate, Priced Water, Priced Additives, Priced Waste, Priced Labour, Priced Downtime)
{
    /// <summary>Litres of concentrate.</summary>
    public Priced Concentrate { get; } = Concentrate ?? throw new ArgumentNullException(nameof(Concentrate));

    /// <summary>Litres of make-up water.</summary>
    public Priced Water { get; } = Water ?? throw new ArgumentNullException(nameof(Water));

    /// <summary>Litres of additives and cleaner.</summary>
    public Priced Additives { get; } = Additives ?? throw new ArgumentNullException(nameof(Additives));

    /// <summary>Litres of waste.</summary>
    public Priced Waste { get; } = Waste ?? throw new ArgumentNullException(nameof(Waste));

    /// <summary>Hours of people.</summary>
    public Priced Labour { get; } = Labour ?? throw new ArgumentNullException(nameof(Labour));

    /// <summary>Hours of the machine.</summary>
    public Priced Downtime { get; } = Downtime ?? throw new ArgumentNullException(nameof(Downtime));

    /// <summary>All parts together.</summary>
    public decimal Total => Concentrate.Cost + Water.Cost + Additives.Cost + Waste.Cost + Labour.Cost + Downtime.Cost;

    /// <summary>Total over running hours or over days.</summary>
    /// <param name="units">Hours that the machine ran on this charge, or days that the charge lived; 0.01 to 1 000 000.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="units"/> is out of its range.</exception>
    public decimal Per(decimal units) => units is >= 0.01m and <= 1_000_000
        ? Total / units
        : throw new ArgumentOutOfRangeException(nameof(units), units, "Accepted are 0.01 to 1 000 000 hours or days.");
}

namespace ShopFluids.Core.Wording;

/// <summary>What a typed number is, which decides the unit in which a person types it.</summary>
public enum QuantityKind : short
{
    /// <summary>The same in both unit systems: percent, Brix, pH, mg/L, hours.</summary>
    Number = 0,

    /// <summary>mm or in.</summary>
    Length = 1,

    /// <summary>L or US gal.</summary>
    Volume = 2,

    /// <summary>°C or °F.</summary>
    Temperature = 3,

    /// <summary>mg/L as CaCO3 or grains per US gallon.</summary>
    Hardness = 4,

    /// <summary>A price for each litre or US gallon.</summary>
    PerVolume = 5,

    /// <summary>A difference of temperatures, such as a margin: °C or °F without the shift of zero.</summary>
    TemperatureStep = 6,

    /// <summary>L/min or US gal/min.</summary>
    FlowPerMinute = 7,

    /// <summary>L/h or US gal/h.</summary>
    FlowPerHour = 8,

    /// <summary>L/day or US gal/day.</summary>
    FlowPerDay = 9,

    /// <summary>bar or psi.</summary>
    Pressure = 10,
}

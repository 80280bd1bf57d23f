namespace ShopFluids.Web.Api.Doses;

/// <summary>An additive that was put into a sump, as a program sends it.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice notes it once.</param>
/// <param name="Sump">The sump's tag.</param>
/// <param name="GivenAt">ISO 8601 with its offset.</param>
/// <param name="Product">Its name as printed on its label.</param>
/// <param name="DoseKind">biocide, fungicide, phRaiser, defoamer, stabiliser, cleaner or other.</param>
/// <param name="DoseUnit">mL or g.</param>
/// <param name="DoseVolumeLitres">The fluid for which it was reckoned.</param>
/// <param name="LabelUnit">mL/L, % v/v, ppm v/v, g/L or mg/kg; the usual one of the unit where it is not said.</param>
/// <param name="ProductDensity">kg/L; needed where the amount is by volume and the label by mass, or the other way round.</param>
/// <param name="LabelMost">Most in one dose by the label; needed of biocides and fungicides.</param>
/// <param name="LabelHours">Least hours between two doses by the label, 0 where it says nothing; needed of biocides and fungicides. Of others what was said at the last dose of the product in the charge holds where it is not said.</param>
/// <param name="ReentryHours">By the label; needed of biocides and fungicides.</param>
/// <param name="GivenAllTheSame">Why a supervisor notes a dose that was given against what its label allows; of others it is not heeded.</param>
/// <param name="SafetyConfirmed">Whoever gave it has label and safety data sheet at hand and is trained; needed of biocides and fungicides.</param>
internal sealed record DoseRequest(
    Guid Id,
    string Sump,
    DateTimeOffset GivenAt,
    string Product,
    string DoseKind,
    decimal DoseAmount,
    string DoseUnit,
    decimal DoseVolumeLitres,
    string Reason,
    string? LabelUnit = null,
    decimal? ProductDensity = null,
    decimal? LabelMost = null,
    decimal? LabelHours = null,
    decimal? ReentryHours = null,
    bool SafetyConfirmed = false,
    string? GivenAllTheSame = null);

/// <param name="Reached">What the dose alone comes to in the fluid, in the unit of the label.</param>
/// <param name="ReentryFrom">When people may come back; null where the label says nothing.</param>
internal sealed record DoseAnswer(Guid Id, string Sump, decimal Reached, string LabelUnit, DateTime? ReentryFrom);

/// <summary>A dose that was noted by mistake.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice strikes out once.</param>
internal sealed record DoseStrikeRequest(Guid Id, string StrikeReason);

/// <param name="Id">Of the dose.</param>
internal sealed record DoseStrikeAnswer(Guid Id, string Sump);

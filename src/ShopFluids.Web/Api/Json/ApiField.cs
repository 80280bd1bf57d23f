using System.Text.Json.Serialization;

namespace ShopFluids.Web.Api.Json;

/// <summary>A field that was refused: in words, and for a program.</summary>
/// <param name="Field">Such as measurements.ph or takenAt.</param>
/// <param name="Problem">Such as outOfRange or missing.</param>
/// <param name="Message">Names the accepted range.</param>
/// <param name="Low">The accepted range, where there is one, in <paramref name="Unit"/>.</param>
/// <param name="FirstDay">For a day: the first that is accepted.</param>
/// <param name="LastDay">For a day: the last that is accepted.</param>
public sealed record ApiField(
    string Field,
    string Problem,
    string Message,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] decimal? Value = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] decimal? Low = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] decimal? High = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Unit = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] DateOnly? FirstDay = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] DateOnly? LastDay = null);

/// <summary>RFC 9457, with a code of our own and the fields.</summary>
public sealed record ApiProblem(
    string Type,
    string Title,
    int Status,
    string Code,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] IReadOnlyList<ApiField>? Errors = null);

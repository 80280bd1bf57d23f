using ShopFluids.Core.Slides;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Slides;

/// <summary>A slide that was dipped, as a program sends it.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice starts it once.</param>
/// <param name="Sump">The sump's tag.</param>
/// <param name="Incubation">incubator (30 °C) or room (22 to 24 °C).</param>
/// <param name="DippedAt">ISO 8601 with its offset.</param>
/// <param name="Parameter">What its side measures; bacteria where it is not said.</param>
internal sealed record SlideRequest(Guid Id, string Sump, string Incubation, DateTimeOffset DippedAt, string? Parameter = null);

/// <summary>What was read of a slide.</summary>
/// <param name="Reading">The id of the reading that it becomes, made by the sender; sending it twice stores it once.</param>
/// <param name="ReadAt">ISO 8601 with its offset.</param>
/// <param name="Unit">log10 CFU/mL where it is not said, or CFU/mL.</param>
internal sealed record SlideReadRequest(Guid Reading, DateTimeOffset ReadAt, decimal Value, string? Unit = null);

internal sealed record SlideDiscardRequest(string Reason);

/// <param name="ReadFrom">Before it nothing has grown.</param>
/// <param name="ReadUntil">After it the slide is late.</param>
internal sealed record StartedSlideAnswer(Guid Id, string Sump, DateTime ReadFrom, DateTime ReadUntil);

/// <param name="State">read or discarded.</param>
/// <param name="Late">It was read after its window.</param>
/// <param name="Reading">What its reading means; null where it was discarded.</param>
internal sealed record EndedSlideAnswer(Guid Id, string State, bool Late, ReadingAnswer? Reading);

/// <param name="State">open, read or discarded.</param>
/// <param name="Late">It was read after its window.</param>
/// <param name="Value">What was read, in the parameter's canonical unit.</param>
internal sealed record SlideRow(
    Guid Id,
    string Sump,
    string Parameter,
    string Incubation,
    DateTime DippedAt,
    DateTime ReadFrom,
    DateTime ReadUntil,
    string State,
    DateTime? EndedAt,
    bool Late,
    Guid? Reading,
    double? Value,
    string? EndReason)
{
    public static SlideRow Of(ListedSlide slide) => new(
        slide.Id,
        slide.SumpTag,
        slide.Parameter,
        Codes.Of(slide.Incubation),
        slide.DippedAtUtc,
        slide.ReadFromUtc,
        slide.ReadUntilUtc,
        slide.EndedHow is { } how ? Codes.Of(how) : "open",
        slide.EndedAtUtc,
        slide.IsReadLate,
        slide.ReadingId,
        slide.Value,
        slide.EndReason);
}

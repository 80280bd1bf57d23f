using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Shutdowns;

/// <summary>Days on which one machine stands, or the whole shop.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice plans once.</param>
/// <param name="Sump">The tag of the sump whose machine stands; left out or null for the whole shop.</param>
/// <param name="FirstDay">The first shop day, such as 2026-12-21.</param>
/// <param name="LastDay">The last shop day.</param>
internal sealed record ShutdownRequest(Guid Id, string? Sump, DateOnly FirstDay, DateOnly LastDay, string Reason);

/// <param name="Sump">Null for the whole shop.</param>
/// <param name="State">planned, standing, over or withdrawn.</param>
/// <param name="Work">What is planned for it, sump by sump; nothing once it is over or withdrawn.</param>
internal sealed record ShutdownAnswer(Guid Id, string? Sump, DateOnly FirstDay, DateOnly LastDay, int Days, string Reason, string State, IReadOnlyList<ShutdownTaskAnswer> Work)
{
    public static ShutdownAnswer Of(Shutdown shutdown, ShopSetup setup, DateOnly today, ILookup<Guid, SumpShutdownWork> work) => new(
        shutdown.Id,
        shutdown.SumpId is { } id ? setup.Sumps.First(s => s.Id == id).Tag : null,
        shutdown.FirstDay,
        shutdown.LastDay,
        shutdown.ToFacts().Days,
        shutdown.Reason,
        Codes.Of(shutdown.StateOn(today)),
        [.. work[shutdown.Id].SelectMany(w => w.Tasks.Select(t => new ShutdownTaskAnswer(t.TaskId, w.SumpTag, Codes.Of(t.Phase), Codes.Of(t.Kind), t.DueDay, Codes.Of(t.State), t.IsAlsoOfPlan)))]);
}

/// <param name="Phase">before, during or after.</param>
/// <param name="AlsoOfPlan">A task of the care plan or of a flag does it as well: it is one piece of work.</param>
internal sealed record ShutdownTaskAnswer(Guid TaskId, string Sump, string Phase, string Kind, DateOnly DueDay, string State, bool AlsoOfPlan);

/// <param name="Tasks">How many tasks were made by it; 0 where it had been planned before.</param>
internal sealed record PlannedShutdownAnswer(ShutdownAnswer Shutdown, int Tasks);

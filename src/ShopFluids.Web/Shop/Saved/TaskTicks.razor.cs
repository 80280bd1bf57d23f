using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Care;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Web.Shop.Saved;

public partial class TaskTicks
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }

    // What was skipped is not done.
    private string Progress
    {
        get
        {
            var (done, skipped) = (View.Page.Tasks.Count(t => t.State == TaskState.Done), View.Page.Tasks.Count(t => t.State == TaskState.Skipped));
            var (format, all) = (View.Visit.Format, View.Visit.Format.Count(View.Page.Tasks.Count));
            return skipped == 0 ? View.Say(Texts.Saved_DoneOf, format.Count(done), all)
                : View.Say(Texts.Saved_DoneSkippedOf, format.Count(done), format.Count(skipped), all);
        }
    }

    private bool MayNotSkip(SavedTask task) => task.State == TaskState.Open && View.MayTick && task.OnlyASupervisorSkips && !View.Visit.IsSupervisor;

    private bool IsDraining(SavedTask task) => task.State == TaskState.Open && View.MayTick && task.Kind == TaskKind.DrainClean;

    private bool IsDosing(SavedTask task) => task.State == TaskState.Open && View.MayTick && task.Kind == TaskKind.Dose;

    private string Address(SavedTask task) => View.Visit.Links.Task(View.Tag, View.ReadingId, task.Id);

    private string Name(SavedTask task) => View.Visit.Sentences.Task(task.Kind, task.Cause, null);

    private string How(SavedTask task) => task switch
    {
        { State: TaskState.Skipped, EndReason: { } reason } => reason,
        { Found: { } found } => View.Visit.Sentences.Found(found),
        _ => $"{Sentences.TaskHow(task.Kind)} {Why(task)}".Trim(),
    };

    // The same work may be due by the plan and because of a finding: the person must see which is which. A search for a cause names it itself.
    private string Why(SavedTask task) => task.GoesAlong ? Texts.Saved_GoesAlong
        : CareSchedule.IsPlanned(task.Cause) ? Texts.Saved_ByPlan
        : task.Kind == TaskKind.Inspect ? ""
        : View.Say(Texts.Saved_Because, View.Visit.Sentences.SubjectOfCause(task.Cause));

    private string When(SavedTask task) => task switch
    {
        { State: TaskState.Done, EndedAtUtc: { } at } => View.Say(Texts.Saved_DoneAt, View.Visit.Format.Time(at)),
        { State: TaskState.Skipped, EndedAtUtc: { } at } => View.Say(Texts.Saved_SkippedAt, View.Visit.Format.Time(at)),
        _ => View.Visit.Format.Due(task.DueAtUtc, View.Page.NowUtc),
    };

    private TaskFault? SkipFaultOf(SavedTask task) => FaultOf(task) is { IsOfDone: false } fault ? fault : null;

    private TaskFault? FindFaultOf(SavedTask task) => FaultOf(task) is { IsOfDone: true } fault ? fault : null;

    private TaskFault? FaultOf(SavedTask task) => View.TaskFault is { } fault && fault.TaskId == task.Id ? fault : null;
}

using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>What a supervisor does to open work. Every act answers null, or why it was not done as a sentence.</summary>
public sealed class WorkActs(DeskSession session, EndTaskHandler endTask, AssignTaskHandler assignTask, CloseFlagHandler closeFlag)
{
    public Task<string?> AssignAsync(Guid taskId, Guid? personId, Sentences sentences, CancellationToken cancellationToken) =>
        TryAsync(async () => (await assignTask.HandleAsync(new AssignTask(taskId, personId), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> DoneAsync(Guid taskId, Sentences sentences, CancellationToken cancellationToken) =>
        TryAsync(async () => (await endTask.HandleAsync(new EndTask(taskId, TaskState.Done), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> SkipAsync(Guid taskId, string reason, Sentences sentences, CancellationToken cancellationToken) =>
        TryAsync(async () => (await endTask.HandleAsync(new EndTask(taskId, TaskState.Skipped, reason), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> CloseAsync(Guid flagId, string reason, Sentences sentences, CancellationToken cancellationToken) =>
        TryAsync(async () => (await closeFlag.HandleAsync(new CloseFlag(flagId, reason), await session.ActorAsync(), cancellationToken)).Error, sentences);

    private async Task<string?> TryAsync(Func<Task<Error?>> act, Sentences sentences)
    {
        // The right is asked for at the act, not at the button: it may have been taken away since.
        if (!await session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Board_MayNot;
        }

        try
        {
            return await act() is { } error ? sentences.Error(error) : null;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Board_NotSaved;
        }
    }
}

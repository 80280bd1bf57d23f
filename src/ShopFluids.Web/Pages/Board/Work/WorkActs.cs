using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Shop.Saved;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>What a supervisor does to open work. Every act answers null, or why it was not done as a sentence.</summary>
public sealed class WorkActs(DeskSession session, EndTaskHandler endTask, AssignTaskHandler assignTask, RedateTaskHandler redateTask, CloseFlagHandler closeFlag, AnswerShopFlagHandler answerShopFlag, RecordAdditionHandler recordAddition)
{
    public Task<string?> AssignAsync(Guid taskId, Guid? personId, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await assignTask.HandleAsync(new AssignTask(taskId, personId), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> RedateAsync(Guid taskId, DateOnly day, string reason, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await redateTask.HandleAsync(new RedateTask(taskId, day, reason), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> DoneAsync(Guid taskId, TypedFind? found, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await EndAsync(new EndTask(taskId, TaskState.Done, Found: found), cancellationToken)).Error, sentences);

    public Task<string?> SkipAsync(Guid taskId, string reason, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await EndAsync(new EndTask(taskId, TaskState.Skipped, reason), cancellationToken)).Error, sentences);

    public Task<string?> CloseAsync(Guid flagId, string reason, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await closeFlag.HandleAsync(new CloseFlag(flagId, reason), await session.ActorAsync(), cancellationToken)).Error, sentences);

    public Task<string?> AnswerAsync(Guid shopFlagId, string answer, Sentences sentences, CancellationToken cancellationToken) =>
        SayAsync(async () => (await answerShopFlag.HandleAsync(new AnswerShopFlag(shopFlagId, answer), await session.ActorAsync(), cancellationToken)).Error, sentences);

    /// <summary>Notes an addition, and with it that the adjustment is done; what is wrong with single amounts is answered by field.</summary>
    public async Task<AdditionRefusal?> AddAsync(RecordAddition command, Sentences sentences, CancellationToken cancellationToken)
    {
        IReadOnlyDictionary<string, string> fields = new Dictionary<string, string>(StringComparer.Ordinal);
        var isQuestion = false;
        var whole = await TryAsync(
            async () => (await recordAddition.HandleAsync(command, await session.ActorAsync(), isSupervisor: true, cancellationToken)).Error,
            error =>
            {
                if (error is not FieldErrors errors)
                {
                    isQuestion = error is AdditionDoubted;
                    return sentences.Error(error);
                }

                fields = AdditionForm.FaultsByField(errors.Fields, sentences);
                return "";
            });
        return whole is null ? null : new(whole, fields) { IsQuestion = isQuestion };
    }

    private async Task<Result<EndedTask>> EndAsync(EndTask command, CancellationToken cancellationToken) =>
        await endTask.HandleAsync(command, await session.ActorAsync(), isSupervisor: true, cancellationToken);

    private Task<string?> SayAsync(Func<Task<Error?>> act, Sentences sentences) => TryAsync(act, sentences.Error);

    private async Task<string?> TryAsync(Func<Task<Error?>> act, Func<Error, string> say)
    {
        // The right is asked for at the act, not at the button: it may have been taken away since.
        if (!await session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Board_MayNot;
        }

        try
        {
            return await act() is { } error ? say(error) : null;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Board_NotSaved;
        }
    }
}

/// <param name="Whole">Why it was not noted; empty when single fields say why.</param>
/// <param name="Fields">What is wrong, by field.</param>
public sealed record AdditionRefusal(string Whole, IReadOnlyDictionary<string, string> Fields)
{
    /// <summary>It is noted when somebody says that it was so.</summary>
    public bool IsQuestion { get; init; }
}

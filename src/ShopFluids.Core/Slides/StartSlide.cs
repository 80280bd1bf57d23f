using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Core.Slides;

/// <summary>Notes that a slide was dipped; to read it becomes work that is due at the end of its window.</summary>
/// <param name="Id">Made by the sender; sending it twice starts it once.</param>
/// <param name="Parameter">What its side measures; so far bacteria.</param>
public sealed record StartSlide(Guid Id, string SumpTag, string Parameter, SlideIncubation Incubation, DateTime DippedAtUtc);

/// <param name="IsNew">False when it was started before.</param>
public sealed record StartedSlide(Guid Id, DateTime ReadFromUtc, DateTime ReadUntilUtc, bool IsNew);

public sealed class StartSlideHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<StartedSlide>> HandleAsync(StartSlide command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        command = command with { DippedAtUtc = ShopClock.ToMillisecond(command.DippedAtUtc) };
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (await db.Slides.AsNoTracking().FirstOrDefaultAsync(s => s.Id == command.Id, cancellationToken) is { } known)
        {
            return known.SumpId == sump.Id && known.Parameter == command.Parameter && known.Incubation == command.Incubation && known.DippedAtUtc == command.DippedAtUtc
                ? new StartedSlide(known.Id, known.ReadFromUtc, known.ReadUntilUtc, IsNew: false)
                : new OtherContentForId(command.Id);
        }

        if (SumpWithCharge.Find(setup, sump.Tag).IsRefused(out var refusal, out var found))
        {
            return refusal;
        }

        var charge = found.Charge;
        var now = clock.UtcNow;
        var errors = Check(command, charge, now);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var (from, until) = WindowOf(setup, sump, charge, command.Incubation, command.DippedAtUtc);
        var slide = new Slide(command.Id, sump.Id, charge.Id, command.Parameter, command.Incubation, command.DippedAtUtc, from, until, now, actor.PersonId);
        db.Add(slide);
        db.Add(new CareTask(clock.NewId(), sump.Id, TaskKind.ReadSlide, UnreadSlideRule.CauseOf(slide.Id), null, until, now, null, null));
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SlideStarted, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new StartedSlide(slide.Id, from, until, IsNew: true);
    }

    /// <summary>From when to when a slide is read, as the shop has set it.</summary>
    internal static (DateTime From, DateTime Until) WindowOf(ShopSetup setup, Sump sump, Charge charge, SlideIncubation incubation, DateTime dippedAtUtc)
    {
        var set = TunedRule.Of(RuleRegistry.UnreadSlide, setup.TuningsFor(sump.Id, charge.FluidId).ByRule);
        var hours = set.Number(incubation == SlideIncubation.Incubator ? UnreadSlideRule.IncubatorHours : UnreadSlideRule.RoomHours);
        var from = dippedAtUtc.AddHours((double)hours);
        return (from, from.AddHours((double)set.Number(UnreadSlideRule.WindowHours)));
    }

    private static List<FieldError> Check(StartSlide command, Charge charge, DateTime nowUtc)
    {
        var errors = new List<FieldError>();
        if (command.Id == Guid.Empty)
        {
            errors.Add(new(FieldNames.Id, FieldProblem.Missing));
        }

        if (command.Parameter != ParameterCodes.Bacteria)
        {
            errors.Add(new(SlideFields.Parameter, FieldProblem.UnknownChoice, Detail: command.Parameter));
        }

        if (!Enum.IsDefined(command.Incubation))
        {
            errors.Add(new(SlideFields.Incubation, FieldProblem.UnknownChoice));
        }

        if (command.DippedAtUtc > nowUtc + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new(SlideFields.DippedAt, FieldProblem.InTheFuture));
        }
        else if (command.DippedAtUtc < charge.FilledAtUtc)
        {
            errors.Add(new(SlideFields.DippedAt, FieldProblem.BeforeTheFill, EarliestUtc: charge.FilledAtUtc));
        }
        else if (command.DippedAtUtc < nowUtc - UnreadSlideRule.Longest)
        {
            errors.Add(new(SlideFields.DippedAt, FieldProblem.SlideTooOld, EarliestUtc: nowUtc - UnreadSlideRule.Longest));
        }

        return errors;
    }
}

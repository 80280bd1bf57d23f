using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Stores;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.Walks;

/// <summary>Random acts of many kinds at two sumps while time goes by; the same seed walks the same way. What is kept of a shop must tell the same after each step as what is read anew.</summary>
internal sealed class ShopWalk(ShopFixture shop, Random chance)
{
    public const string OtherTag = "S-08";
    private const string Instrument = "R-1";

    // The digits of an id that tell when it was made, with the dash between them.
    private const int InstantOfId = 13;

    private static readonly decimal[] Phs = [9.0m, 9.1m, 8.4m, 9.6m];
    private static readonly decimal[] Strengths = [8.0m, 7.5m, 4.0m, 11.0m];

    /// <summary>How many acts were not refused.</summary>
    public int Done { get; private set; }

    public static async Task<ShopWalk> OpenAsync(ShopFixture shop, int seed)
    {
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, OtherTag, "M-08", walkOrder: 8));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, OtherTag))).Done();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "op1", "Op One", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, default)).Done();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "sup1", "Sup One", "ten signs and more", [Roles.Supervisor], "light"), Some.Supervisor, default)).Done();
        await shop.InstrumentAsync(Some.Refractometer(Instrument));
        foreach (var tag in new[] { Some.SumpTag, OtherTag })
        {
            await shop.StepAsync(Some.Step(TaskKind.Test, tag));
            await shop.StepAsync(Some.Step(TaskKind.Skim, tag, days: 2));
            await shop.StepAsync(Some.Step(TaskKind.DrainClean, tag, days: 30));
        }

        return new ShopWalk(shop, new Random(seed));
    }

    /// <summary>Something that a page may show, or time goes by. What the shop refuses changes nothing, and is part of the walk.</summary>
    public async Task<string> ActAsync()
    {
        // No two acts in one instant: what was made then would come in any order, and a walk that went wrong has to go wrong again.
        shop.Clock.Advance(TimeSpan.FromSeconds(1));
        var tag = chance.Next(2) == 0 ? Some.SumpTag : OtherTag;
        switch (chance.Next(32))
        {
            case 0 or 1 or 2:
                return Count("reading", await shop.RecordAsync(Some.Reading(Of(Strengths), Of(Phs), chance.Next(150, 340), shop.Now, tag)));
            case 3:
                return Count("addition", await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now, tag: tag)));
            case 4 or 5:
                var ended = new EndTask(await TaskAsync(), chance.Next(3) == 0 ? TaskState.Skipped : TaskState.Done, "No time");
                return Count("task ended", await shop.Get<EndTaskHandler>().HandleAsync(ended, Some.Supervisor, isSupervisor: true, default));
            case 6 or 18 or 19:
                var given = new AssignTask(await TaskAsync(), chance.Next(3) == 0 ? null : await PersonAsync());
                return Count("task given", await shop.Get<AssignTaskHandler>().HandleAsync(given, Some.Supervisor, default));
            case 7:
                var moved = new RedateTask(await TaskAsync(), DateOnly.FromDateTime(shop.Now).AddDays(chance.Next(6)), "Waits for a part");
                return Count("task re-dated", await shop.Get<RedateTaskHandler>().HandleAsync(moved, Some.Supervisor, default));
            case 8:
                return Count("flag closed", await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(await FlagAsync(), "Seen to"), Some.Supervisor, default));
            case 9:
                var skipped = new SkipStops(Some.Id(), [tag], chance.Next(2) == 0 ? SkipReason.MachineRunning : SkipReason.CouldNotReach, "");
                return Count("stop skipped", await shop.Get<SkipStopsHandler>().HandleAsync(skipped, new Actor(await PersonAsync(), "Op One"), default));
            case 10:
                var dose = Some.Dose() with { SumpTag = tag, GivenAtUtc = shop.Now };
                return Count("dose", await shop.Get<NoteDoseHandler>().HandleAsync(dose, Some.Supervisor, isSupervisor: true, default));
            case 11:
                var lot = Some.Lot(Some.Id(), shop.FluidId, $"L-{chance.Next(1000)}", expires: DateOnly.FromDateTime(shop.Now).AddDays(chance.Next(1, 40))) with { PricePerLitre = chance.Next(1, 20), ReceivedOn = DateOnly.FromDateTime(shop.Now) };
                return Count("lot received", await shop.Get<ReceiveLotHandler>().HandleAsync(lot, Some.Supervisor, default));
            case 12:
                return Count("shop flag answered", await shop.Get<AnswerShopFlagHandler>().HandleAsync(new AnswerShopFlag(await ShopFlagAsync(), "Ordered"), Some.Supervisor, default));
            case 13:
                var (signInName, role) = ($"op{chance.Next(1, 3)}", chance.Next(2) == 0 ? Roles.Operator : Roles.Auditor);
                return chance.Next(2) == 0
                    ? Count("person came", await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), signInName, "Op New", "ten signs and more", [role], "light"), Some.Supervisor, default))
                    : Count("person left", await shop.Get<RenameToNumberHandler>().HandleAsync(new RenameToNumber(signInName), Some.Supervisor, default));
            case 14:
                var closed = new PlanShutdown(Some.Id(), chance.Next(2) == 0 ? null : tag, DateOnly.FromDateTime(shop.Now).AddDays(chance.Next(1, 5)), DateOnly.FromDateTime(shop.Now).AddDays(chance.Next(5, 12)), "Repair");
                return Count("shutdown", await shop.Get<PlanShutdownHandler>().HandleAsync(closed, Some.Supervisor, default));
            case 21:
                var struck = new StrikeDose(Some.Id(), await AnyAsync(db => db.Doses, d => $"{d.SumpId == shop.SumpId} {d.GivenAtUtc:O}"), "Wrong sump");
                return Count("dose struck", await shop.Get<StrikeDoseHandler>().HandleAsync(struck, Some.Supervisor, default));
            case 22:
                return Count("drained", await shop.DrainAsync(shop.Now, tag: tag));
            case 23:
                return Count("filled", await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag, shop.Now, water: 149, concentrate: 1), isSupervisor: true));
            case 24:
                var wrong = await AnyAsync(db => db.Readings.Where(r => !db.Readings.Any(o => o.SupersedesId == r.Id)), r => $"{r.SumpId == shop.SumpId} {r.TakenAtUtc:O}");
                return Count("reading corrected", await shop.RecordAsync(Some.Reading(Of(Strengths), Of(Phs), takenAt: shop.Now, sump: tag, supersedes: wrong, reason: "Slip"), Some.Supervisor));
            case 25:
                return Count("lot counted", await shop.Get<AdjustLotHandler>().HandleAsync(new AdjustLot(Some.Id(), shop.LotId, AdjustmentKind.Counted, chance.Next(0, 200), "Dipstick"), Some.Supervisor, default));
            case 15:
                var fluid = (await shop.SetupAsync()).Fluid(shop.FluidId);
                var named = new ChangeFluid(fluid.Id, Some.Fluid(fluid.Id, $"Emulsion {chance.Next(100)}").Data, fluid.Version);
                return Count("fluid renamed", await shop.Get<ChangeFluidHandler>().HandleAsync(named, Some.Supervisor, default));
            case 16:
                var machine = (await shop.SetupAsync()).Machines[0];
                var renamed = new ChangeMachine(machine.Id, $"Turning centre {chance.Next(100)}", machine.Process, machine.WeeklyHours, machine.Delivery, machine.Version);
                return Count("machine renamed", await shop.Get<ChangeMachineHandler>().HandleAsync(renamed, Some.Supervisor, default));
            case 26:
                var limits = new ParameterLimits(ParameterCodes.Concentration, LimitBasis.Value, null, 6 + chance.Next(3), null, null, 9 + chance.Next(3), null, EdgeIsBeyond: false, 0.2m);
                return Count("limits set", await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, shop.SumpId, shop.Now.AddHours(chance.Next(0, 20)), [limits]), Some.Supervisor, default));
            case 27:
                var check = new NoteInstrumentCheck(Some.Id(), (await shop.SetupAsync()).Instruments[0].Id, DateOnly.FromDateTime(shop.Now)) { First = new(0, chance.Next(2)) };
                return Count("instrument checked", await shop.Get<NoteInstrumentCheckHandler>().HandleAsync(check, Some.Supervisor, default));
            case 28 or 29:
                var typed = new[] { Some.Typed(ParameterCodes.Concentration, Of(Strengths), instrument: chance.Next(2) == 0 ? Instrument : null), Some.Typed(ParameterCodes.Odour, chance.Next(3)) };
                return Count("reading by an instrument, maybe late", await shop.RecordAsync(Some.Reading(takenAt: shop.Now.AddHours(-chance.Next(0, 60)), sump: tag) with { Measurements = typed }));
            case 20:
                shop.Clock.Advance(TimeSpan.FromMinutes(chance.Next(1, 300)));
                return "hours";
            case 17:
                shop.Clock.Advance(TimeSpan.FromHours(chance.Next(5, 40)));
                return "days";
            default:
                shop.Clock.Advance(TimeSpan.FromMinutes(chance.Next(1, 90)));
                await shop.Get<NoticeOverdueHandler>().HandleAsync(default);
                await shop.Get<NoticeShopFlagsHandler>().HandleAsync(default);
                await shop.Get<EscalateFlagsHandler>().HandleAsync(default);
                return "noticed";
        }
    }

    private T Of<T>(IReadOnlyList<T> choices) => choices[chance.Next(choices.Count)];

    private string Count<T>(string name, Result<T> result)
        where T : class
    {
        Done += result.Value is null ? 0 : 1;
        return name;
    }

    private Task<Guid> TaskAsync() => AnyAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open), t => $"{t.SumpId == shop.SumpId} {t.Kind} {t.DueAtUtc:O} {t.Cause.Split(':')[0]}");

    private Task<Guid> FlagAsync() => AnyAsync(db => db.Flags.Where(f => f.EndedAtUtc == null), f => $"{f.SumpId == shop.SumpId} {f.Rule} {f.Parameter}");

    private Task<Guid> ShopFlagAsync() => AnyAsync(db => db.ShopFlags.Where(f => f.AnsweredAtUtc == null && f.GoneAtUtc == null), f => f.Rule);

    private Task<Guid> PersonAsync() => AnyAsync(db => db.Users, p => p.UserName);

    // Ids of what one act made come in any order.
    private async Task<Guid> AnyAsync<T>(Func<ShopFluidsDbContext, IQueryable<T>> query, Func<T, string?> says)
        where T : class
    {
        var rows = await shop.ReadAsync(db => query(db).AsNoTracking().Select(r => new { Id = EF.Property<Guid>(r, "Id"), Row = r }).ToListAsync());
        var ids = rows.OrderBy(r => $"{r.Id}"[..InstantOfId], StringComparer.Ordinal).ThenBy(r => says(r.Row), StringComparer.Ordinal).Select(r => r.Id).ToList();
        return ids.Count == 0 ? Some.Id() : Of(ids);
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Doses;

/// <summary>A dose that was noted by mistake stays to be seen and counts for nothing.</summary>
public sealed class StrikeDoseTests
{
    private const string Why = "Noted at the wrong sump";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_Noted_StaysWithTheReasonAndTheRecordIsSound(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var dose = await NoteAsync(shop, Some.Dose());
        shop.Clock.Advance(TimeSpan.FromMinutes(5));

        Assert.Equal(new StruckDose(dose, Some.SumpTag, IsNew: true), (await StrikeAsync(shop, new(Some.Id(), dose, $" {Why} "))).Done());

        var row = Assert.Single((await shop.Get<DosesQuery>().OfSumpAsync(Some.SumpTag, Token)).Done().Doses);
        Assert.Equal((dose, new HistoryCorrection(shop.Now, "", Why)), (row.Id, row.StruckOut));
        Assert.Empty(DoseTotal.Of([row]));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameCommandAgain_IsOneStrikeAndAnotherIsRefused(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var command = new StrikeDose(Some.Id(), await NoteAsync(shop, Some.Dose()), Why);
        (await StrikeAsync(shop, command)).Done();
        var before = await shop.FootprintAsync();

        Assert.False((await StrikeAsync(shop, command)).Done().IsNew);
        Assert.Equal(new OtherContentForId(command.Id), (await StrikeAsync(shop, command with { Reason = "Said otherwise" })).Refused());
        Assert.Equal(new DoseStruckAlready(command.DoseId), (await StrikeAsync(shop, command with { Id = Some.Id() })).Refused());
        var unknown = Some.Id();
        Assert.Equal(new DoseNotFound(unknown), (await StrikeAsync(shop, new(Some.Id(), unknown, Why))).Refused());
        Assert.Equal(new FieldError(DoseFields.StrikeReason, FieldProblem.Missing), (await StrikeAsync(shop, command with { Reason = " " })).Field());
        Assert.Equal(new FieldError("id", FieldProblem.Missing), (await StrikeAsync(shop, command with { Id = Guid.Empty })).Field());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    // The label allows one dose of 225 mL in 96 hours; the sump can be drained as if nothing had been put in.
    [Theory, EachDatabase]
    public async Task HandleAsync_Struck_CountsForNoWaitingTimeNoMaximumAndNoEndOfTheCharge(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var dose = await NoteAsync(shop, Some.Dose());
        Assert.Equal(FieldProblem.TooSoon, (await TryAsync(shop, Some.Dose())).Field().Problem);

        (await StrikeAsync(shop, new(Some.Id(), dose, Why))).Done();

        var second = await NoteAsync(shop, Some.Dose() with { Product = "biocide b-20", LabelHours = 0 });
        Assert.Equal("biocide b-20", (await shop.ReadAsync(db => db.Doses.SingleAsync(d => d.Id == second))).Product);
        Assert.Equal(45m, (await TryAsync(shop, Some.Dose() with { LabelHours = 0 })).Field().High);
        (await StrikeAsync(shop, new(Some.Id(), second, Why))).Done();
        await NoteAsync(shop, Some.Dose() with { LabelHours = 0, GivenAtUtc = Some.Start.AddHours(-2) });
        (await shop.DrainAsync(Some.Start.AddHours(-1))).Done();
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Struck_NobodyKeepsAwayAnyMore(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var dose = await NoteAsync(shop, Some.Dose());
        Assert.Equal(new KeepAway(Some.Start.AddHours(4), "Biocide B-20"), await OfBoardAsync(shop));
        Assert.Equal(await OfBoardAsync(shop), (await shop.Get<EntryPageQuery>().RunAsync(Some.SumpTag, Token)).Done().KeepAway);
        Assert.Equal(await OfBoardAsync(shop), (await shop.Get<SumpPageQuery>().RunAsync(Some.SumpTag, Token))?.KeepAway);

        (await StrikeAsync(shop, new(Some.Id(), dose, Why))).Done();

        Assert.Null(await OfBoardAsync(shop));
        Assert.Null((await shop.Get<EntryPageQuery>().RunAsync(Some.SumpTag, Token)).Done().KeepAway);
        Assert.Null((await shop.Get<SumpPageQuery>().RunAsync(Some.SumpTag, Token))?.KeepAway);
    }

    // Of two doses the one that lasts longer counts; after its time nobody keeps away.
    [Theory, EachDatabase]
    public async Task RunAsync_TwoReentryTimes_TheLatestHoldsAndASumpInRangeIsShownForIt(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        await NoteAsync(shop, Some.Dose() with { ReentryHours = 12 });
        await NoteAsync(shop, Some.Dose() with { Product = "Fungicide F-5", Kind = DoseKind.Fungicide });

        Assert.Equal(new KeepAway(Some.Start.AddHours(12), "Biocide B-20"), await OfBoardAsync(shop));
        Assert.Contains((await shop.Get<BoardQuery>().RunAsync(new(), Token)).Rows, r => r.Tag == Some.SumpTag);
        shop.Clock.Advance(TimeSpan.FromHours(12));
        Assert.Null(await OfBoardAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_HadDoneThePlansDose_ItIsDueAgainUnlessAnotherDoseDidIt(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.FromLastDone, days: 14));
        var due = (await OpenTaskAsync(shop)).DueAtUtc;
        var first = await NoteAsync(shop, Some.Dose());
        Assert.NotEqual(due, (await OpenTaskAsync(shop)).DueAtUtc);

        (await StrikeAsync(shop, new(Some.Id(), first, Why))).Done();

        Assert.Equal(due, (await OpenTaskAsync(shop)).DueAtUtc);
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.True((await HistoryAsync(shop)).Tasks.Single(t => t.Kind == TaskKind.Dose).IsOfStruckDose);

        var second = await NoteAsync(shop, Some.Dose());
        var next = (await OpenTaskAsync(shop)).DueAtUtc;
        await NoteAsync(shop, Some.Dose() with { Product = "Defoamer D-3", Kind = DoseKind.Defoamer });
        (await StrikeAsync(shop, new(Some.Id(), second, Why))).Done();
        Assert.Equal(next, (await OpenTaskAsync(shop)).DueAtUtc);
    }

    // Two doses of one day: the first did the plan's work, the second would have. Whichever goes last brings it back.
    [Theory]
    [EachDatabase(true)]
    [EachDatabase(false)]
    public async Task HandleAsync_TwoWrongDoses_ThePlansDoseIsDueAgainInEitherOrder(TestDatabase database, bool isInOrder)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.FromLastDone, days: 14));
        var due = (await OpenTaskAsync(shop)).DueAtUtc;
        Guid[] wrong = [await NoteAsync(shop, Some.Dose()), await NoteAsync(shop, Some.Dose() with { Product = "Fungicide F-5", Kind = DoseKind.Fungicide })];

        foreach (var dose in isInOrder ? wrong : wrong.Reverse())
        {
            (await StrikeAsync(shop, new(Some.Id(), dose, Why))).Done();
        }

        Assert.Equal(due, (await OpenTaskAsync(shop)).DueAtUtc);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_HadDoneADoseThatDoesNotRecur_ItIsAskedForAnew(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose, basis: IntervalBasis.AfterFill, days: 11));
        var asked = await OpenTaskAsync(shop);
        var dose = await NoteAsync(shop, Some.Dose());
        Assert.Equal(TaskState.Done, (await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == asked.Id))).State);

        (await StrikeAsync(shop, new(Some.Id(), dose, Why))).Done();

        var again = await OpenTaskAsync(shop);
        Assert.Equal((asked.Cause, asked.DueAtUtc, asked.StepId), (again.Cause, again.DueAtUtc, again.StepId));
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<BoardQuery>().AddSingleton<EntryPageQuery>().AddSingleton<SumpPageQuery>());

    private static async Task<KeepAway?> OfBoardAsync(ShopFixture shop)
    {
        var board = await shop.Get<BoardQuery>().RunAsync(new(), Token);
        return board.Rows.Concat(board.Quiet).Single(r => r.Tag == Some.SumpTag).KeepAway;
    }

    private static Task<CareTask> OpenTaskAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Dose && t.State == TaskState.Open));

    private static async Task<SumpHistory> HistoryAsync(ShopFixture shop) => (await shop.Get<SumpPageQuery>().RunAsync(Some.SumpTag, Token) ?? throw new InvalidOperationException("There is a sump.")).History;

    private static Task<Result<NotedDose>> TryAsync(ShopFixture shop, NoteDose command) => shop.Get<NoteDoseHandler>().HandleAsync(command, Some.Operator, isSupervisor: false, Token);

    private static async Task<Guid> NoteAsync(ShopFixture shop, NoteDose command) => (await TryAsync(shop, command)).Done().Id;

    private static Task<Result<StruckDose>> StrikeAsync(ShopFixture shop, StrikeDose command) => shop.Get<StrikeDoseHandler>().HandleAsync(command, Some.Supervisor, Token);
}

using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Invariant 3: a reading is never changed; a correction is a new one that names it.</summary>
public sealed class ReadingCorrectionTests
{
    [Theory, EachDatabase]
    public async Task Preview_Correction_AnswersWhatStoringAnswersAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);
        var right = Some.Reading(brix: 8.0m, supersedes: wrong.Id, reason: "Read the wrong scale");
        var before = await shop.FootprintAsync();

        var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(right, TestContext.Current.CancellationToken)).Done();
        var unknown = await shop.Get<PreviewReadingQuery>().RunAsync(Some.Reading(supersedes: right.Id, reason: "Slip"), TestContext.Current.CancellationToken);

        Assert.Equal(before, await shop.FootprintAsync());
        Assert.Equal(new ReadingNotFound(right.Id), unknown.Refused());
        var stored = await shop.StoreAsync(right);
        Assert.Equal(
            (stored.Verdict, stored.Raised.Count, stored.Cleared.Count, stored.Made.Count, stored.Done.Count, stored.Withdrawn.Count),
            (preview.Verdict, preview.Raised.Count, preview.Cleared.Count, preview.Made.Count, preview.Done.Count, preview.Withdrawn.Count));
        Assert.Equal(Assert.Single(stored.Cleared).Id, Assert.Single(preview.Cleared).Id);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Correction_LeavesTheOldRowAsItWas(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);
        var before = await RowsAsync(shop, wrong.Id);

        var right = await shop.StoreAsync(Some.Reading(brix: 8.0m, supersedes: wrong.Id, reason: "Read the wrong scale"));

        Assert.Equal(before, await RowsAsync(shop, wrong.Id));
        Assert.Equal(Verdict.InRange, right.Verdict);
        var stored = await shop.ReadAsync(db => db.Readings.SingleAsync(r => r.Id == right.ReadingId));
        Assert.Equal(((Guid?)wrong.Id, "Read the wrong scale", Some.Operator.PersonId.GetValueOrDefault()), (stored.SupersedesId, stored.CorrectionReason, stored.PersonId));
        Assert.Equal(ActCodes.ReadingCorrected, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Code).FirstAsync()));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Correction_TakesBackWhatTheOldOneLedTo(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);

        await shop.StoreAsync(Some.Reading(brix: 8.0m, supersedes: wrong.Id, reason: "Slip"));

        Assert.Equal(FlagEnd.Superseded, await shop.ReadAsync(db => db.Flags.Select(f => f.EndedHow).SingleAsync()));
        Assert.Equal(TaskState.Withdrawn, await shop.ReadAsync(db => db.CareTasks.Select(t => t.State).SingleAsync()));
        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync());
        Assert.Equal((Verdict.InRange, 0, 8.0m), (standing.Verdict, standing.OpenFlagCount, standing.Facts!.Latest[ParameterCodes.Concentration].Value));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_CorrectionStillLow_RaisesTheFlagAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);

        var right = await shop.StoreAsync(Some.Reading(brix: 6.0m, supersedes: wrong.Id, reason: "Slip"));

        Assert.Equal(Verdict.Warning, Assert.Single(right.Raised).Severity);
        Assert.Equal(TaskKind.Adjust, Assert.Single(right.Made).Kind);
        Assert.Equal(1, await shop.ReadAsync(db => db.Flags.CountAsync(f => f.EndedAtUtc == null)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_CorrectionOfAnEarlierReading_LeavesTheLatest(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(ph: 9.4m, takenAt: Some.Start.AddHours(-5));
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(ph: 8.9m));

        await shop.StoreAsync(Some.Reading(ph: 9.0m, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Slip"));

        var facts = (await shop.ReadAsync(db => db.Standings.SingleAsync())).Facts!;
        Assert.Equal((8.9m, 9.0m), (facts.Latest[ParameterCodes.Ph].Value, facts.FirstFillPh));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A finding that a later reading has seen too does not go when the first sight of it was mistaken: it tells what the later one found.
    [Theory, EachDatabase]
    public async Task HandleAsync_CorrectionOfTheFirstSight_LeavesTheFindingOfTheLaterReading(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-5));
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(brix: 4.2m));

        await shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: wrong.TakenAtUtc, supersedes: wrong.Id, reason: "Slip"));

        var flags = await shop.ReadAsync(db => db.Flags.Where(f => f.Rule == "limit").OrderByDescending(f => f.EndedAtUtc != null).ToListAsync());
        Assert.Equal([(FlagEnd?)FlagEnd.Superseded, null], flags.Select(f => f.EndedHow));
        Assert.Equal([4.0m, 4.2m], flags.Select(f => f.Numbers["value"]));
        Assert.Equal(TaskKind.Adjust, await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open && t.Cause == "limit:concentration").Select(t => t.Kind).SingleAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SupersedeTwice_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading();
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(supersedes: wrong.Id, reason: "Slip"));
        var before = await shop.FootprintAsync();

        Assert.Equal(new AlreadySuperseded(wrong.Id), (await shop.RecordAsync(Some.Reading(supersedes: wrong.Id, reason: "Again"))).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_TwoCorrectionsOfOneReadingAtOnce_OneIsStored(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(() => (n % 2 == 0 ? shop : other).RecordAsync(Some.Reading(supersedes: wrong.Id, reason: "Slip")))));

        Assert.Equal(1, answers.Count(a => a.Value is not null));
        Assert.All(answers.Where(a => a.Value is null), a => Assert.IsType<AlreadySuperseded>(a.Error));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SupersedesUnknownOrOfAnEarlierCharge_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var old = Some.Reading();
        await shop.StoreAsync(old);
        (await shop.DrainAsync(Some.Start)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, at: Some.Start))).Done();
        var unknown = Some.Id();

        Assert.Equal(new ReadingNotFound(unknown), (await shop.RecordAsync(Some.Reading(supersedes: unknown, reason: "Slip"))).Refused());
        Assert.Equal(new ReadingNotFound(old.Id), (await shop.RecordAsync(Some.Reading(supersedes: old.Id, reason: "Slip"))).Refused());
    }

    [Theory]
    [EachDatabase("")]
    [EachDatabase("  ")]
    public async Task HandleAsync_NoReason_IsRefusedAtTheField(TestDatabase database, string reason)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading(brix: 4.0m);
        await shop.StoreAsync(wrong);
        var before = await shop.FootprintAsync();

        Assert.Equal(new FieldError("correctionReason", FieldProblem.Missing), (await shop.RecordAsync(Some.Reading(supersedes: wrong.Id, reason: reason))).Field());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Database_SecondCorrectionOfOneReading_IsRefusedByItsIndex(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Reading();
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(supersedes: wrong.Id, reason: "Slip"));
        var second = new Reading(Some.Id(), shop.SumpId, shop.ChargeId, Some.Start, Some.Start, Guid.Empty, "", "");
        second.Supersede(wrong.Id, "Around the handler");

        await using var write = await shop.Get<ShopDatabase>().WriteAsync(TestContext.Current.CancellationToken);
        write.Database.Add(second);
        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(TestContext.Current.CancellationToken));
    }

    private static Task<string> RowsAsync(ShopFixture shop, Guid id) => shop.ReadAsync(async db =>
    {
        var reading = await db.Readings.Include(r => r.Measurements).SingleAsync(r => r.Id == id);
        return RowImage.Of(db.Entry(reading)) + string.Join('\n', reading.Measurements.OrderBy(m => m.Parameter, StringComparer.Ordinal).Select(m => RowImage.Of(db.Entry(m))));
    });
}

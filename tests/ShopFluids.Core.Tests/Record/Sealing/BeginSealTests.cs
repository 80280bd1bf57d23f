using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Sealing;

/// <summary>A key is taken into use: what it seals, what it holds by the chain, and what the record says of it.</summary>
public sealed class BeginSealTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_FreshRecord_IsSealedFromTheFirstEntryOn(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);
        var kept = new List<RecordKey>();

        var key = await BeginAsync(shop, kept);
        await ActAsync(shop);

        Assert.Same(key, Assert.Single(kept));
        var entries = await EntriesAsync(shop);
        Assert.Equal((ActCodes.RecordSealed, key.Id, RecordFingerprint.OfNothing), (entries[0].Code, entries[0].Subject, key.Since));
        Assert.All(entries, e => Assert.True(key.HasSealed(e.Hash, e.Seal)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_RecordFromBeforeSeals_IsHeldByTheChain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await EntriesAsync(shop);

        var key = await BeginAsync(shop);
        await ActAsync(shop);

        Assert.Equal(new RecordFingerprint(before.Count, before[^1].Hash), key.Since);
        Assert.Equal([.. before.Select(_ => false), true, true], (await EntriesAsync(shop)).Select(e => e.Seal is not null));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AnotherWasFirst_TakesNothingAndKeepsNothing(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);
        await BeginAsync(shop);
        await using var other = ShopFixture.Empty(database);
        var kept = new List<RecordKey>();

        var result = await other.Get<BeginSealHandler>().HandleAsync(new BeginSeal(null), kept.Add, Stop);

        Assert.IsType<AlreadySealed>(result.Error);
        Assert.Empty(kept);
        Assert.Null(other.Get<RecordSealer>().Key);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_KeyThatBeginsElsewhere_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var result = await shop.Get<BeginSealHandler>().HandleAsync(new BeginSeal(RecordKey.Make(RecordFingerprint.OfNothing)), _ => { }, Stop);

        Assert.IsType<AlreadySealed>(result.Error);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_InPlaceOfALostKey_SaysWhichAndWhere(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lost = await BeginAsync(shop);
        await ActAsync(shop);
        var last = (await EntriesAsync(shop))[^1];
        await using var next = ShopFixture.Empty(database);

        var key = (await next.Get<BeginSealHandler>().HandleAsync(new BeginSeal(null, Replaces: true), _ => { }, Stop)).Done();
        await ActAsync(next);

        var begun = (await EntriesAsync(next)).Single(e => e.Sequence == last.Sequence + 1);
        Assert.Equal($"{key.Id} after {last.Sequence}:{lost.Id}", begun.Subject);
        Assert.Empty((await next.VerifyAsync()).Findings);
        // The program with the lost key knows that it is no longer the one.
        Assert.Contains(new VerifyFinding(VerifyProblem.NotSealed, $"RecordEntry {begun.Sequence}", begun.Sequence), (await shop.VerifyAsync()).Findings);
    }

    // Otherwise a new key would be a way to make good what was forged before it.
    [Theory, EachDatabase]
    public async Task RunAsync_EntryBeforeTheKeyForged_DiffersFromWhatTheKeyRemembers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var key = await BeginAsync(shop);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "Hash" = '{RecordEntry.FirstPreviousHash}' WHERE "Sequence" = {key.Since.Count}""");

        Assert.Contains(new VerifyFinding(VerifyProblem.FingerprintDiffers, $"RecordEntry {key.Since.Count}", key.Since.Count), (await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AllSealsTakenAway_NamesTheFirstThatHadOne(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var key = await BeginAsync(shop);
        await ActAsync(shop);
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Seal" = NULL""");

        var first = key.Since.Count + 1;
        Assert.Equal([new VerifyFinding(VerifyProblem.NotSealed, $"RecordEntry {first}", first)], (await shop.VerifyAsync()).Findings);
    }

    // An older version that still runs beside this one, or a program without the key.
    [Theory, EachDatabase]
    public async Task RunAsync_UnsealedEntryAfterSealedOnes_IsNamedAlsoWithoutTheKey(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await BeginAsync(shop);
        await using var old = ShopFixture.Empty(database);
        await ActAsync(old);

        var last = (await EntriesAsync(shop))[^1].Sequence;
        var named = new VerifyFinding(VerifyProblem.NotSealed, $"RecordEntry {last}", last);
        Assert.Equal([named], (await shop.VerifyAsync()).Findings);
        Assert.Equal([named], (await old.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Fingerprints_FitOrNameTheirEntryOrSayThatItIsGone(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var entries = await EntriesAsync(shop);
        var (fits, other, later) = (new RecordFingerprint(5, entries[4].Hash[..12]), new RecordFingerprint(6, entries[4].Hash), new RecordFingerprint(entries.Count + 3, entries[4].Hash));

        Assert.Empty((await shop.VerifyAsync(fits, new(entries.Count, entries[^1].Hash))).Findings);
        Assert.Equal(
            [new VerifyFinding(VerifyProblem.FingerprintDiffers, "RecordEntry 6", 6), new VerifyFinding(VerifyProblem.CutOff, $"RecordEntry {entries.Count + 1}", entries.Count + 3)],
            (await shop.VerifyAsync(fits, other, later)).Findings);
    }

    private static async Task<RecordKey> BeginAsync(ShopFixture shop, List<RecordKey>? kept = null) =>
        (await shop.Get<BeginSealHandler>().HandleAsync(new BeginSeal(null), key => kept?.Add(key), Stop)).Done();

    // Any act will do: this one is recorded without rows.
    private static async Task ActAsync(ShopFixture shop)
    {
        var id = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(id, $"{id:N}", "Somebody", "ten signs and more", [Roles.Operator], "light"), Some.Supervisor, Stop)).Done();
    }

    private static Task<List<RecordEntry>> EntriesAsync(ShopFixture shop) => shop.ReadAsync(db => db.RecordEntries.AsNoTracking().OrderBy(e => e.Sequence).ToListAsync(Stop));
}

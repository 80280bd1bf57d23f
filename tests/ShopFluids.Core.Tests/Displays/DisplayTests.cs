using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Displays;

/// <summary>A display's link opens the wall until a supervisor revokes it; the record knows who made and revoked it, and no secret.</summary>
public sealed class DisplayTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Add_ADisplay_OpensByItsSecretAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var made = (await Handler(shop).HandleAsync(new AddDisplay(Some.Id(), " Hall ", "dark", shop.AreaId), Some.Supervisor, Stop)).Done();

        Assert.Equal(new DisplayHere(made.Id, "Hall", "dark", shop.AreaId), await Query(shop).OfSecretAsync(made.Secret, Stop));
        Assert.Null(await Query(shop).OfSecretAsync(made.Secret + "0", Stop));
        Assert.Null(await Query(shop).OfSecretAsync("", Stop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Add_ADisplay_KeepsTheSecretNowhere(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var made = await AddAsync(shop);

        var key = await shop.ReadAsync(db => db.DisplayKeys.SingleAsync(Stop));
        Assert.Equal((64, false), (key.Hash.Length, key.Hash == made.Secret));
        var changes = await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => new { e.Code, e.Changes }).FirstAsync(Stop));
        Assert.Equal(ActCodes.DisplayMade, changes.Code);
        Assert.DoesNotContain(made.Secret, changes.Changes, StringComparison.Ordinal);
        Assert.DoesNotContain(key.Hash, changes.Changes, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Revoke_ADisplay_OpensNothingFromThenOnAndIsRecorded(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var made = await AddAsync(shop);

        (await Handler(shop).HandleAsync(new RevokeDisplay(made.Id), Some.Supervisor, Stop)).Done();

        Assert.Null(await Query(shop).OfSecretAsync(made.Secret, Stop));
        Assert.Equal(0, await shop.CountAsync<DisplayKey>());
        Assert.Equal(shop.Now, Assert.Single(await Query(shop).AllAsync(Stop)).RevokedAtUtc);
        Assert.Equal(ActCodes.DisplayRevoked, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Code).FirstAsync(Stop)));
        Assert.IsType<DisplayNotFound>((await Handler(shop).HandleAsync(new RevokeDisplay(made.Id), Some.Supervisor, Stop)).Error);
        Assert.IsType<DisplayNotFound>((await Handler(shop).HandleAsync(new AddDisplay(made.Id, "Hall", "shop", null), Some.Supervisor, Stop)).Error);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Renew_ADisplay_ClosesTheLinkBeforeAndIsRecorded(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var made = await AddAsync(shop);
        var entries = await shop.CountAsync<RecordEntry>();

        var renewed = (await Handler(shop).HandleAsync(new RenewDisplay(made.Id), Some.Supervisor, Stop)).Done();

        Assert.Null(await Query(shop).OfSecretAsync(made.Secret, Stop));
        Assert.Equal(made.Id, (await Query(shop).OfSecretAsync(renewed.Secret, Stop))?.Id);
        Assert.Equal(entries + 1, await shop.CountAsync<RecordEntry>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Change_ADisplay_KeepsItsLink(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var made = await AddAsync(shop);

        (await Handler(shop).HandleAsync(new ChangeDisplay(made.Id, "Stores", "light", null), Some.Supervisor, Stop)).Done();

        Assert.Equal(new DisplayHere(made.Id, "Stores", "light", null), await Query(shop).OfSecretAsync(made.Secret, Stop));
    }

    [Theory]
    [EachDatabase("", "shop", "name", FieldProblem.Missing)]
    [EachDatabase("Hall", "shop", "name", FieldProblem.NotUnique)]
    [EachDatabase("North", "pink", "theme", FieldProblem.UnknownChoice)]
    public async Task Add_WhatCannotBe_IsRefusedAtItsField(TestDatabase database, string name, string theme, string field, FieldProblem problem)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await AddAsync(shop);

        var error = (await Handler(shop).HandleAsync(new AddDisplay(Some.Id(), name, theme, null), Some.Supervisor, Stop)).Field();

        Assert.Equal((field, problem), (error.Field, error.Problem));
        Assert.Equal(1, await shop.CountAsync<Display>());
    }

    [Theory, EachDatabase]
    public async Task Add_UnknownArea_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Equal("area", (await Handler(shop).HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", Some.Id()), Some.Supervisor, Stop)).Field().Field);
    }

    private static SetUpDisplaysHandler Handler(ShopFixture shop) => shop.Get<SetUpDisplaysHandler>();

    private static DisplaysQuery Query(ShopFixture shop) => shop.Get<DisplaysQuery>();

    private static async Task<OfferedDisplay> AddAsync(ShopFixture shop) =>
        (await Handler(shop).HandleAsync(new AddDisplay(Some.Id(), "Hall", "shop", null), Some.Supervisor, Stop)).Done();
}

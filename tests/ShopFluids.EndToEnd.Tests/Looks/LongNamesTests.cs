using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.Setup;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Names as long as they may be, with no blank to break at, push nothing out of the window.</summary>
public sealed class LongNamesTests(Chromium chromium)
{
    private const string Tag = "SUMP-OF-THE-LINE-007";
    private const string Pages = $"/round?all=1 /enter/{Tag} /board /overview /sumps /sumps/{Tag} /sheets /setup /setup/areas /setup/fluids /setup/lots /setup/sumps /setup/care?sump={Tag} /setup/limits /setup/limits?sump={Tag}";

    [Fact]
    public async Task Pages_WithTheLongestNames_FitTheirWindow()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, NameAtLengthAsync);
        await using var visit = await Visit.OpenAsync(chromium, shop.Server.Address);
        await SignIn.AsAsync(visit, "long", SmallShop.Password);

        var tooWide = new List<string>();
        foreach (var path in Pages.Split(' '))
        {
            Assert.Equal(200, (await visit.GoAsync(path)).Status);
            tooWide.AddRange((await PageWidth.FaultsAsync(visit)).Select(o => $"{path} at {o}"));
        }

        var entry = new EntryPage(visit);
        await entry.OpenAsync(Tag);
        await entry.TypeAsync("3.0", "8.0", "200", new string('n', 400));
        await entry.SaveForSureAsync();
        tooWide.AddRange((await PageWidth.FaultsAsync(visit)).Select(o => $"saved at {o}"));
        foreach (var path in new[] { "/board", $"/sumps/{Tag}" })
        {
            await visit.GoAsync(path);
            tooWide.AddRange((await PageWidth.FaultsAsync(visit)).Select(o => $"{path} with work at {o}"));
        }

        Assert.True(tooWide.Count == 0, string.Join('\n', tooWide));
        visit.ExpectNoFaults();
    }

    private static async Task NameAtLengthAsync(ShopFixture shop)
    {
        static string Long(string word) => string.Concat(Enumerable.Repeat(word, 120))[..120];
        var site = await shop.ReadAsync(db => db.Sites.SingleAsync());
        (await shop.Get<SaveSiteHandler>().HandleAsync(Some.Site() with { Id = site.Id, Name = Long("Workshop"), SeenVersion = site.Version }, Some.Supervisor, default)).Done();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "long", Long("Hohenlohe"), SmallShop.Password, [Roles.Supervisor], "light"), Some.Supervisor, default)).Done();
        var (area, fluid, lot) = (Some.Id(), Some.Id(), Some.Id());
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(area, Long("Presshall"), 2), Some.Supervisor, default)).Done();
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(fluid, Long("Semisynthetic")), Some.Supervisor, default)).Done();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(lot, fluid, Long("LOT2026")[..40]), Some.Supervisor, default)).Done();
        var sump = Some.Sump(Some.Id(), area, Tag, "MACHINE-OF-THE-LINE7");
        await shop.SumpAsync(sump with { Machines = [sump.Machines[0] with { Name = Long("Machiningcentre"), Process = Long("Deepholedrilling") }] });
        (await shop.FillAsync(Some.Fill(Some.Id(), fluid, lot, Tag))).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, Tag));
    }
}

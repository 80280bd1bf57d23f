using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.DosingLogs;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class DoseSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_NothingDosed_IsEmpty(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = await RunAsync(shop);

        Assert.Empty(sheet.Totals);
        Assert.Empty(sheet.Entries);
        Assert.Equal(("1 Jan to 2 Mar 2026", "0", "0"), (sheet.Frame.Period, sheet.Count, sheet.Biocidal));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Dosed_SaysEachDoseWithItsLabelAndTotalsByProduct(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await NoteAsync(shop, Some.Dose() with { GivenAtUtc = Some.Start.AddDays(-5), Product = "biocide b-20", Amount = 90.5m });
        await NoteAsync(shop, Some.Dose());
        await NoteAsync(shop, Some.Dose() with { GivenAtUtc = Some.Start.AddDays(-1), Product = "Defoamer D-3", Kind = DoseKind.Defoamer, Unit = DoseUnit.Gram, Amount = 30, LabelMost = null, LabelHours = null, ReentryHours = null });

        var sheet = await RunAsync(shop);

        Assert.Equal(("3", "2"), (sheet.Count, sheet.Biocidal));
        Assert.Equal(new DoseSheetTotal[] { new("biocide b-20", "biocide", "2", "270.5 mL"), new("Defoamer D-3", "defoamer", "1", "30 g") }, sheet.Totals);
        Assert.Equal(
            new DoseSheetEntry("2 Mar 08:00", "S-07", "biocide b-20", "biocide", "180 mL", "1.2 mL/L", "1.5 mL/L", "2 Mar 12:00", "Smell on Monday", ""),
            sheet.Entries[0]);
        Assert.Equal(("30 g", "200 mg/kg", Texts.Sheet_NotRecorded, Texts.Sheet_NotRecorded), (sheet.Entries[1].Amount, sheet.Entries[1].Reached, sheet.Entries[1].LabelMost, sheet.Entries[1].Reentry));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AgainstTheLabelAndStruckOut_SaysBothAndCountsOnlyWhatStands(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var wrong = Some.Dose() with { GivenAtUtc = Some.Start.AddDays(-2) };
        await NoteAsync(shop, wrong);
        (await shop.Get<StrikeDoseHandler>().HandleAsync(new(Some.Id(), wrong.Id, "Wrong sump"), Some.Supervisor, Token)).Done();
        (await shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose() with { Amount = 300, AgainstLabelReason = "Poured twice" }, Some.Supervisor, isSupervisor: true, Token)).Done();

        var sheet = await RunAsync(shop);

        Assert.Equal(("1", "1"), (sheet.Count, sheet.Biocidal));
        Assert.Equal("300 mL", Assert.Single(sheet.Totals).Amount);
        Assert.Equal([("(!) Against its label: Poured twice. Smell on Monday", null), ("Smell on Monday", "Struck out 2 Mar 08:00 by : Wrong sump")], sheet.Entries.Select(e => (e.Reason, e.StruckOut)));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OtherPeriod_LeavesOutWhatWasBefore(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await NoteAsync(shop, Some.Dose() with { GivenAtUtc = Some.Start.AddDays(-3) });

        Assert.Empty((await shop.Get<DoseSheetQuery>().RunAsync(new(2026, 3, 1), null, "Sup", Token)).Done().Entries);
        Assert.Single((await shop.Get<DoseSheetQuery>().RunAsync(new(2026, 2, 27), new(2026, 2, 27), "Sup", Token)).Done().Entries);
        Assert.IsType<PeriodNotValid>((await shop.Get<DoseSheetQuery>().RunAsync(new(2026, 3, 3), null, "Sup", Token)).Error);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<DoseSheetQuery>());

    private static async Task NoteAsync(ShopFixture shop, NoteDose command) => (await shop.Get<NoteDoseHandler>().HandleAsync(command, Some.Operator, isSupervisor: false, Token)).Done();

    private static async Task<DoseSheet> RunAsync(ShopFixture shop) => (await shop.Get<DoseSheetQuery>().RunAsync(null, null, "Sup", Token)).Done();
}

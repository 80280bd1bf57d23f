using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Setup;

/// <summary>Machines with their sumps from a typed list: every wrong cell is named, and all are stored or none.</summary>
public sealed class AddMachineListTests
{
    private const string Good = "S-01; M-01 Turning centre; North bay; 1000 × 500 × 400; 340; 60\n\nS-02\tGrinder\tTurning\t1200\t600,5\t400\t350\t100";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_GoodLines_MakesSumpsMachinesAndMissingAreas(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var added = (await AddAsync(shop, Lines(Good))).Done();

        Assert.Equal(["S-01", "S-02"], added.SumpTags);
        var setup = await shop.SetupAsync();
        Assert.Equal(["Turning", "North bay"], setup.Areas.Select(a => a.Name));
        var (first, second) = (setup.FindSump("S-01")!, setup.FindSump("S-02")!);
        Assert.Equal(("North bay", 340m, 60m, 8, shop.WaterId), (setup.Area(first.AreaId).Name, first.FullMarkMm, first.PumpIntakeMm, first.WalkOrder, first.WaterSourceId ?? Guid.Empty));
        Assert.Equal((shop.AreaId, 600.5m, 9), (second.AreaId, second.Shape.WidthMm, second.WalkOrder));
        Assert.Equal(("M-01", "Turning centre", 40m), setup.MachinesOf(first) is [var machine] ? (machine.Tag, machine.Name, machine.WeeklyHours) : default);
        Assert.Equal(("S-02", "Grinder"), setup.MachinesOf(second) is [var other] ? (other.Tag, other.Name) : default);
        Assert.Equal(["S-02", "S-01", "North bay"], await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Take(3).Select(e => e.Subject).ToListAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SentTwice_IsDoneOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var lines = Lines(Good);
        (await AddAsync(shop, lines)).Done();
        var before = await shop.FootprintAsync();

        Assert.Equal(["S-01", "S-02"], (await AddAsync(shop, lines)).Done().SumpTags);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OneWrongLine_StoresNone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        var errors = (await AddAsync(shop, Lines(Good + "\nS-03; Mill; North bay; 1000 x 500 x 400; 412; 60"))).Fields();

        Assert.Equal([new FieldError("lines.3.fullMarkMm", FieldProblem.OutOfRange, 412, 1, 400, "mm")], errors);
        Assert.Equal(before, await shop.FootprintAsync());
        Assert.Equal(["Turning"], (await shop.SetupAsync()).Areas.Select(a => a.Name));
    }

    [Theory]
    [EachDatabase("; Mill; Hall; 1000x500x400; 340; 60", "sumpTag")]
    [EachDatabase("S 1; Mill; Hall; 1000x500x400; 340; 60", "sumpTag")]
    [EachDatabase("s-07; Mill; Hall; 1000x500x400; 340; 60", "sumpTag")]
    [EachDatabase("S-01; m-07 Mill; Hall; 1000x500x400; 340; 60", "machineTag")]
    [EachDatabase("S-01; ; Hall; 1000x500x400; 340; 60", "machineName")]
    [EachDatabase("S-01; Mill; ; 1000x500x400; 340; 60", "area")]
    [EachDatabase("S-01; Mill; Hall; 1000x500; 340; 60", "size")]
    [EachDatabase("S-01; Mill; Hall; ; 340; 60", "size")]
    [EachDatabase("S-01; Mill; Hall; 9x500x400; 340; 60", "lengthMm")]
    [EachDatabase("S-01; Mill; Hall; 1000xwide x400; 340; 60", "widthMm")]
    [EachDatabase("S-01; Mill; Hall; 1000x500x400; high; 60", "fullMarkMm")]
    [EachDatabase("S-01; Mill; Hall; 1000x500x400; 340; 340", "pumpIntakeMm")]
    [EachDatabase("S-01; Mill; Hall; 1000x500x400; 340", "pumpIntakeMm")]
    [EachDatabase("S-01; Mill; Hall; 1000x500x400; 340; 60; more", "line")]
    public async Task PreviewAsync_WrongCell_NamesItAndNothingElse(TestDatabase database, string line, string field)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var listed = Assert.Single(await shop.Get<AddMachineListHandler>().PreviewAsync(Command(Lines(line)), Stop));

        Assert.Equal(field, Assert.Single(listed.Errors).Field);
        Assert.StartsWith("Line 1: ", new Sentences((await shop.SetupAsync()).FormatFor(), await shop.SetupAsync()).FieldName(FieldNameSentences.OfLine(1, field)), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task PreviewAsync_SameTagInTwoLines_IsNamedAtTheSecond(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var listed = await shop.Get<AddMachineListHandler>().PreviewAsync(Command(Lines("S-01; M-01 Mill; A; 1000x500x400; 340; 60\ns-01; m-01 Mill; a; 1000x500x400; 340; 60")), Stop);

        Assert.Empty(listed[0].Errors);
        Assert.Equal(["sumpTag", "machineTag"], listed[1].Errors.Select(e => e.Field));
        Assert.Equal(listed[0].Sump.AreaId, listed[1].Sump.AreaId);
        Assert.All(listed, l => Assert.True(l.IsAreaNew));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NoLineTooManyOrNoSite_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var many = Lines(string.Join('\n', Enumerable.Range(0, 501).Select(n => $"T-{n}; Mill; Hall; 1000x500x400; 340; 60")));

        Assert.Equal(["machineList"], (await AddAsync(shop, [])).Fields().Select(e => e.Field));
        Assert.Equal(new FieldError("machineList", FieldProblem.WrongCount, 501, 1, 500), (await AddAsync(shop, many)).Field());
        Assert.Equal(["weeklyHours"], (await shop.Get<AddMachineListHandler>().HandleAsync(Command(Lines(Good)) with { WeeklyHours = 169 }, Some.Supervisor, Stop)).Fields().Select(e => e.Field));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WithoutSite_IsRefused(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);

        Assert.Equal(new NoSite(), (await AddAsync(shop, Lines(Good))).Refused());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_InInches_KeepsMillimetres(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await shop.Get<AddMachineListHandler>().HandleAsync(Command(Lines("S-01; Mill; Hall; 40 x 20 x 16; 13.5; 2")) with { Units = UnitSystem.UsCustomary }, Some.Supervisor, Stop)).Done();

        var sump = (await shop.SetupAsync()).FindSump("S-01")!;
        Assert.Equal((1016m, 342.9m), (sump.Shape.LengthMm, sump.FullMarkMm));
    }

    private static IReadOnlyList<MachineLine> Lines(string text) => MachineLine.Read(text, Some.Id);

    private static AddMachineList Command(IReadOnlyList<MachineLine> lines) => new(lines, UnitSystem.Metric, 40);

    private static Task<Result<AddedMachines>> AddAsync(ShopFixture shop, IReadOnlyList<MachineLine> lines) => shop.Get<AddMachineListHandler>().HandleAsync(Command(lines), Some.Supervisor, Stop);
}

using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care.Templates;

public sealed class ApplyCareTemplateTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_AllSteps_MakesThemWithTheirTasksInOneAct(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var entries = await shop.CountAsync<RecordEntry>();
        var template = CareTemplates.For(FluidKind.SemiSynthetic, MachineUse.Machining, Delivery.Flood);

        Assert.Equal(template.Count, (await ApplyAsync(shop, Of(template))).Done().Steps);

        var steps = (await shop.SetupAsync()).StepsOf(shop.SumpId);
        Assert.Equal(template.Select(s => s.Code).Order(), steps.Select(s => s.Template ?? "").Order());
        var filter = steps.Single(s => s.Kind == TaskKind.ChangeFilter);
        Assert.Equal((IntervalBasis.Condition, 7, 90, 2m), (filter.Basis, filter.FloorDays ?? 0, filter.CeilingDays ?? 0, filter.WantedFind ?? 0));
        Assert.Equal((Texts.Template_FilterType, 4), (filter.Needs?.Filter, filter.Needs?.Steps.Count));
        var tasks = await shop.ReadAsync(db => Task.FromResult(db.CareTasks.ToList()));
        Assert.Equal(template.Count(s => s.Basis != IntervalBasis.AfterFill), tasks.Count);
        Assert.Equal(entries + 1, await shop.CountAsync<RecordEntry>());
        Assert.Equal(ActCodes.CareTemplateApplied, await shop.ReadAsync(db => Task.FromResult(db.RecordEntries.OrderBy(e => e.Sequence).Last().Code)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SentTwice_IsAppliedOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = Of(CareTemplates.For(FluidKind.SemiSynthetic, MachineUse.Grinding, Delivery.None));
        Assert.True((await ApplyAsync(shop, command)).Done().Steps > 5);
        var before = await shop.FootprintAsync();

        Assert.Equal(0, (await ApplyAsync(shop, command)).Done().Steps);

        Assert.Equal(before, await shop.FootprintAsync());
    }

    // Through-tool is offered only where a machine has it, here none: nothing of the rest is stored either.
    [Theory]
    [EachDatabase("through-tool")]
    [EachDatabase("no-such-step")]
    public async Task HandleAsync_StepThatIsNotOffered_StoresNothing(TestDatabase database, string code)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        var error = (await ApplyAsync(shop, new(Some.SumpTag, FluidKind.SolubleOil, MachineUse.Machining, [new(Some.Id(), "core"), new(Some.Id(), code)]))).Field();

        Assert.Equal((ApplyCareTemplateHandler.StepsField, FieldProblem.UnknownChoice, code), (error.Field, error.Problem, error.Detail));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NothingChosenOrNowhereToPutIt_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        Assert.Equal(FieldProblem.Missing, (await ApplyAsync(shop, new(Some.SumpTag, FluidKind.SolubleOil, MachineUse.Machining, []))).Field().Problem);
        Assert.IsType<SumpNotFound>((await ApplyAsync(shop, new("S-99", FluidKind.SolubleOil, MachineUse.Machining, [new(Some.Id(), "core")]))).Refused());
        (await shop.Get<RetireSumpHandler>().HandleAsync(new RetireSump(Some.SumpTag), Some.Supervisor, Stop)).Done();
        Assert.IsType<SumpRetired>((await ApplyAsync(shop, new(Some.SumpTag, FluidKind.SolubleOil, MachineUse.Machining, [new(Some.Id(), "core")]))).Refused());
    }

    public static TheoryData<FluidKind, MachineUse> EveryTemplate =>
        [.. from fluid in Enum.GetValues<FluidKind>() from use in Enum.GetValues<MachineUse>() select (fluid, use)];

    [Theory]
    [MemberData(nameof(EveryTemplate))]
    public async Task For_EveryTemplate_IsWhatTheSetUpAccepts(FluidKind fluid, MachineUse use)
    {
        const Delivery all = Delivery.Flood | Delivery.Mist | Delivery.ThroughTool | Delivery.WashDown;
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        var sump = Some.Sump(Some.Id(), shop.AreaId, "S-20", "M-20");
        await shop.SumpAsync(sump with { Machines = [sump.Machines[0] with { Delivery = all }] });
        var template = CareTemplates.For(fluid, use, all);

        Assert.Equal(template.Count, (await ApplyAsync(shop, new("S-20", fluid, use, [.. template.Select(s => new TemplateChoice(Some.Id(), s.Code))]))).Done().Steps);

        Assert.Equal(template.Count, template.Select(s => s.Code).Distinct(StringComparer.Ordinal).Count());
        Assert.All(template, step => Assert.True(step.Kind is TaskKind.Test or TaskKind.DrainClean || TemplateSentences.NeedsOf(step.Code).Steps.Count > 0, step.Code));
        Assert.All(template.Where(s => s.Kind == TaskKind.Inspect), step => Assert.NotEmpty(TemplateSentences.NeedsOf(step.Code).What));
        Assert.Contains(template, s => s.Kind == TaskKind.Test && s.Parameters.Contains(ParameterCodes.Level));
        Assert.Equal(fluid != FluidKind.StraightOil, template.Any(s => s.Parameters.Contains(ParameterCodes.Ph)));
        Assert.Single(template, s => s.Kind == TaskKind.DrainClean);
        Assert.Single(template, s => s.Kind == TaskKind.ChangeFilter);
    }

    [Theory]
    [InlineData("turning", "Turning centre", 1, MachineUse.Machining)]
    [InlineData("Cylindrical grinding", "G-2", 1, MachineUse.Grinding)]
    [InlineData("", "Band saw", 1, MachineUse.Sawing)]
    [InlineData("grinding", "G-2", 2, MachineUse.Central)]
    public void UseOf_WordsOfTheMachine_SayWhatItDoes(string process, string name, int count, MachineUse expected) =>
        Assert.Equal(expected, CareTemplates.UseOf([.. Enumerable.Range(0, count).Select(i => new Machine(Some.Id(), Some.Id(), $"M-{i}", name, process, 40, Delivery.Flood))]));

    [Fact]
    public void IsIn_PlanThatHasPartOfIt_OffersTheRest()
    {
        var template = CareTemplates.For(FluidKind.SolubleOil, MachineUse.Machining, Delivery.Flood);
        CareStep[] plan = [Made(TaskKind.Test, ParameterCodes.Ph, ParameterCodes.Bacteria), Made(TaskKind.Skim), Made(TaskKind.Inspect)];

        Assert.Equal(["slide", "skim"], template.Where(s => s.IsIn(plan)).Select(s => s.Code));
    }

    private static CareStep Made(TaskKind kind, params string[] parameters) => new(Some.Id(), Some.Id(), kind, IntervalBasis.FromLastDone, 7, Today, ClosedDayPolicy.Later, parameters, 5);

    private static ApplyCareTemplate Of(IReadOnlyList<TemplateStep> template) =>
        new(Some.SumpTag, FluidKind.SemiSynthetic, template.Any(s => s.Code == "filter-grinding") ? MachineUse.Grinding : MachineUse.Machining, [.. template.Select(s => new TemplateChoice(Some.Id(), s.Code))]);

    private static Task<Result<AppliedTemplate>> ApplyAsync(ShopFixture shop, ApplyCareTemplate command) => shop.Get<ApplyCareTemplateHandler>().HandleAsync(command, Some.Supervisor, Stop);
}

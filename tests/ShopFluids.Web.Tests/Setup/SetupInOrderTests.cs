using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Overview;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class SetupInOrderTests
{
    /// <summary>Follows what the overview asks for next, from an empty database until a reading is stored.</summary>
    [Theory, EachDatabase]
    public async Task Overview_EachNextPartDone_LeadsToAStoredReading(TestDatabase database)
    {
        await using var shop = ShopFixture.Empty(database);
        var cancel = TestContext.Current.CancellationToken;
        var actor = Some.Supervisor;
        await shop.Get<ShipParametersHandler>().HandleAsync(cancel);
        var (area, water, fluid, lot, sump, charge) = (Some.Id(), Some.Id(), Some.Id(), Some.Id(), Some.Id(), Some.Id());

        await NextIsAsync(shop, Texts.Setup_Site);
        (await shop.Get<SaveSiteHandler>().HandleAsync(Some.Site(), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Areas);
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(area, "North bay", 1), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Waters);
        (await shop.Get<AddWaterSourceHandler>().HandleAsync(Some.Water(water), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Instruments);
        (await shop.Get<AddInstrumentHandler>().HandleAsync(Some.Refractometer(), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Fluids);
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(fluid), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Lots);
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(lot, fluid), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Sumps);
        (await shop.Get<AddSumpHandler>().HandleAsync(CentralSump(sump, area, water), actor, cancel)).Done();
        await NextIsAsync(shop, Texts.Setup_Charges);
        (await shop.FillAsync(Some.Fill(charge, fluid, lot), isSupervisor: true)).Done();
        await NextIsAsync(shop, Texts.Setup_Care);
        var template = CareTemplates.For(FluidKind.SemiSynthetic, MachineUse.Central, Delivery.Flood | Delivery.Mist);
        (await shop.Get<ApplyCareTemplateHandler>().HandleAsync(
            new ApplyCareTemplate(Some.SumpTag, FluidKind.SemiSynthetic, MachineUse.Central, [.. template.Select(s => new TemplateChoice(Some.Id(), s.Code))]), actor, cancel)).Done();

        await NextIsAsync(shop, null);
        var outcome = await shop.StoreAsync(Some.Reading());

        Assert.Equal(Verdict.InRange, outcome.Verdict);
        Assert.Equal(1, await shop.CountAsync<Reading>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static AddSump CentralSump(Guid sump, Guid area, Guid water)
    {
        var one = Some.Sump(sump, area, waterId: water);
        return one with { Machines = [.. one.Machines, new NewMachine(Some.Id(), "M-08", "Grinder", "grinding", 40, Delivery.Flood | Delivery.Mist)] };
    }

    private static async Task NextIsAsync(ShopFixture shop, string? title)
    {
        var setup = await shop.SetupAsync();
        var format = setup.FormatFor();
        var overview = SetupOverview.Of(new DeskWords(setup, format, new Sentences(format, setup)), await shop.Get<LotsQuery>().RunAsync(TestContext.Current.CancellationToken), 1);
        Assert.Equal(title, overview.Next?.Title);
    }
}

using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits.Effects;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Tests.Layout;

namespace ShopFluids.Web.Tests.Setup;

/// <summary>A desk with the set-up commands, and hands to fill its forms in.</summary>
internal static class SetupDesk
{
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public static async Task<DeskContext> OpenAsync(bool isSetUp = true, bool isSupervisor = true)
    {
        var desk = await DeskContext.OpenAsync(isSupervisor, isSetUp);
        desk.Services.AddSingleton(desk.Shop.Get<LotsQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<AddInstrumentHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<NoteInstrumentCheckHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<MakeAccountHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<RenameToNumberHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<SetPinHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<SetUpStationsHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<StationsQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<SetUpDisplaysHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<DisplaysQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<SaveSiteHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<AddSumpHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<SetLimitsHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<LimitsPastQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<SetRuleHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<RejudgeHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<RuleChangesQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<AddCareStepHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<StopCareStepHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ApplyCareTemplateHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<PlanShutdownHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<EndShutdownHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ShutdownWorkQuery>());
        desk.Services.AddSingleton(desk.Shop.Get<FillSumpHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<ReceiveLotHandler>());
        desk.Services.AddSingleton(desk.Shop.Get<QuarantineLotHandler>());
        return desk;
    }

    public static Task<DeskWords> WordsAsync(this DeskContext desk) => desk.Services.GetRequiredService<DeskSession>().WordsAsync(Xunit.TestContext.Current.CancellationToken);

    /// <summary>Types into the field of this name. Numbers are followed key by key, other fields when they are left.</summary>
    public static void Type<T>(this IRenderedComponent<T> page, string field, string text)
        where T : Microsoft.AspNetCore.Components.IComponent
    {
        var box = page.Find($"#{IdOf(field)}");
        if (box.GetAttribute("inputmode") == "decimal")
        {
            box.Input(text);
        }
        else
        {
            box.Change(text);
        }
    }

    public static string ValueOf<T>(this IRenderedComponent<T> page, string field)
        where T : Microsoft.AspNetCore.Components.IComponent =>
        page.Find($"#{IdOf(field)}").GetAttribute("value") ?? "";

    public static string? FaultOf<T>(this IRenderedComponent<T> page, string field)
        where T : Microsoft.AspNetCore.Components.IComponent =>
        page.FindAll($"#{IdOf(field)}-fault") is [var fault] ? fault.TextContent : null;

    /// <summary>Sends the form, and waits for faults or for what the save says.</summary>
    public static async Task SaveAsync<T>(this IRenderedComponent<T> page)
        where T : Microsoft.AspNetCore.Components.IComponent
    {
        await page.Find("form").SubmitAsync(EventArgs.Empty);
        page.WaitForState(() => page.Find("form").GetAttribute("aria-busy") == "false", Patience);
    }

    private static string IdOf(string field) => "f-" + field.Replace('.', '-');
}

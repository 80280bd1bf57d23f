using Microsoft.Playwright;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Pictures;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>A page in one of its states, and who sees it.</summary>
/// <param name="Role">Null: nobody has signed in.</param>
/// <param name="IsTablet">Of the shop floor: big targets, three themes, phones too.</param>
/// <param name="Then">Brings the page into its state.</param>
internal sealed record CheckedPage(string Name, string? Role, string Path, bool IsTablet, Func<Visit, Task>? Then = null)
{
    private const string Sump = "S-12";
    private const string Drained = "S-43";

    public static IReadOnlyList<CheckedPage> All { get; } =
    [
        new("sign-in", null, "/account/sign-in", IsTablet: true),
        new("sign-in refused", null, "/account/sign-in", IsTablet: true, RefuseSignInAsync),
        new("round", Texts.Role_Operator, "/round", IsTablet: true),
        new("all sumps", Texts.Role_Operator, "/round?all=1", IsTablet: true),
        new("finish the round", Texts.Role_Operator, "/round/finish", IsTablet: true),
        new("finish the round, refused", Texts.Role_Operator, "/round/finish", IsTablet: true, FinishWithoutReasonAsync),
        new("entry", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, UnfoldAsync),
        new("entry with the number pad", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, SwitchPadOnAsync),
        new("entry from paper", Texts.Role_Operator, $"/enter/{Sump}?paper=1", IsTablet: true, UnfoldAsync),
        new("entry refused", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, visit => SendAsync(visit, "80", "15", "9000")),
        new("entry asked", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, visit => SendAsync(visit, "14", "9.0", "300")),
        new("entry of an unknown sump", Texts.Role_Operator, "/enter/S-99", IsTablet: true),
        new("saved", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, SaveAsync),
        new("saved with a photo", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, SaveWithPhotoAsync),
        new("photo", Texts.Role_Operator, $"/enter/{Sump}", IsTablet: true, ShowPhotoAsync),
        new("dip slides", Texts.Role_Operator, $"/slides/{Sump}", IsTablet: true),
        new("dip slides, one waits", Texts.Role_Operator, $"/slides/{Sump}", IsTablet: true, StartSlideAsync),
        new("drain and clean", Texts.Role_Operator, $"/drain/{Drained}", IsTablet: true),
        new("drain and clean, refused", Texts.Role_Operator, $"/drain/{Drained}", IsTablet: true, TickNothingAsync),
        new("account", Texts.Role_Operator, "/account", IsTablet: true),
        new("not allowed", Texts.Role_Operator, "/setup", IsTablet: true),
        new("not found", Texts.Role_Supervisor, "/no-such-page", IsTablet: true),
        new("board", Texts.Role_Supervisor, "/board", IsTablet: false),
        new("board, work on a sump", Texts.Role_Supervisor, "/board", IsTablet: false, WorkAsync),
        new("board, several at once", Texts.Role_Supervisor, "/board", IsTablet: false, TickWorkAsync),
        new("sumps", Texts.Role_Supervisor, "/sumps", IsTablet: false),
        new("sump", Texts.Role_Supervisor, $"/sumps/{Sump}", IsTablet: false),
        new("correct a reading", Texts.Role_Supervisor, $"/sumps/{Sump}", IsTablet: false, CorrectAsync),
        new("correct a reading, refused", Texts.Role_Supervisor, $"/sumps/{Sump}", IsTablet: false, CorrectWithoutReasonAsync),
        new("note a dose", Texts.Role_Operator, $"/sumps/{Sump}/dose", IsTablet: false),
        new("note a dose, refused", Texts.Role_Operator, $"/sumps/{Sump}/dose", IsTablet: false, RefuseFormAsync),
        new("overview", Texts.Role_Auditor, "/overview", IsTablet: false, UnfoldAsync),
        new("search", Texts.Role_Supervisor, "/search?q=07", IsTablet: false),
        new("search, list open", Texts.Role_Supervisor, "/sumps", IsTablet: false, SearchAsync),
        new("bench", Texts.Role_Operator, "/bench", IsTablet: false),
        .. new BenchList().Calculators.Select(c => new CheckedPage($"bench, {c.Code}", Texts.Role_Supervisor, $"/bench/{c.Code}?sump={Sump}", IsTablet: false, UnfoldAsync)),
        new("bench, refused", Texts.Role_Supervisor, "/bench/top-up?volumeLitres=much", IsTablet: false),
        new("pattern table", Texts.Role_Auditor, $"/patterns?sump={Sump}&seen=rust&seen=foam", IsTablet: false),
        new("machine", Texts.Role_Supervisor, "/machines/M-12", IsTablet: false),
        new("stores", Texts.Role_Supervisor, "/stores", IsTablet: false),
        new("lot", Texts.Role_Supervisor, "/stores", IsTablet: false, OpenLotAsync),
        new("instrument", Texts.Role_Operator, "/instruments/R-2", IsTablet: false),
        new("instrument, check refused", Texts.Role_Operator, "/instruments/P-1", IsTablet: false, RefuseFormAsync),
        new("record", Texts.Role_Auditor, "/record", IsTablet: false, UnfoldFirstAsync),
        new("record, nothing found", Texts.Role_Auditor, "/record?about=no-such-tag", IsTablet: false),
        new("sheets", Texts.Role_Auditor, "/sheets", IsTablet: false),
        new("set-up", Texts.Role_Supervisor, "/setup", IsTablet: false),
        new("set-up, first set-up", Texts.Role_Supervisor, "/setup/start", IsTablet: false, TypeListAsync),
        new("set-up, site", Texts.Role_Supervisor, "/setup/site", IsTablet: false),
        new("set-up, areas", Texts.Role_Supervisor, "/setup/areas", IsTablet: false),
        new("set-up, change an area", Texts.Role_Supervisor, "/setup/areas", IsTablet: false, ChangeFirstAsync),
        new("set-up, waters", Texts.Role_Supervisor, "/setup/waters", IsTablet: false),
        new("set-up, change a water", Texts.Role_Supervisor, "/setup/waters", IsTablet: false, ChangeFirstAsync),
        new("set-up, instruments", Texts.Role_Supervisor, "/setup/instruments", IsTablet: false),
        new("set-up, change an instrument", Texts.Role_Supervisor, "/setup/instruments/R-2", IsTablet: false),
        new("set-up, fluids", Texts.Role_Supervisor, "/setup/fluids", IsTablet: false),
        new("set-up, new fluid", Texts.Role_Supervisor, "/setup/fluids/new", IsTablet: false),
        new("set-up, new fluid refused", Texts.Role_Supervisor, "/setup/fluids/new", IsTablet: false, RefuseFormAsync),
        new("set-up, change a fluid", Texts.Role_Supervisor, "/setup/fluids", IsTablet: false, ChangeFirstAsync),
        new("set-up, change a machine", Texts.Role_Supervisor, "/setup/machines/M-12", IsTablet: false),
        new("set-up, lots", Texts.Role_Supervisor, "/setup/lots", IsTablet: false),
        new("set-up, sumps", Texts.Role_Supervisor, "/setup/sumps", IsTablet: false),
        new("set-up, new sump", Texts.Role_Supervisor, "/setup/sumps/new", IsTablet: false),
        new("set-up, change a sump", Texts.Role_Supervisor, $"/setup/sumps/{Sump}/change", IsTablet: false),
        new("set-up, fill", Texts.Role_Supervisor, "/setup/charges/fill", IsTablet: false),
        new("set-up, drain", Texts.Role_Supervisor, "/setup/charges/drain", IsTablet: false),
        new("set-up, limits", Texts.Role_Supervisor, "/setup/limits", IsTablet: false),
        new("set-up, limits of a sump, drafted", Texts.Role_Supervisor, $"/setup/limits?sump={Sump}", IsTablet: false, DraftLimitAsync),
        new("set-up, rules", Texts.Role_Supervisor, "/setup/rules", IsTablet: false),
        new("set-up, rule of a sump", Texts.Role_Supervisor, $"/setup/rules?sump={Sump}&rule=sudden-change", IsTablet: false, RefuseFormAsync),
        new("set-up, shutdowns", Texts.Role_Supervisor, "/setup/shutdowns", IsTablet: false),
        new("set-up, care", Texts.Role_Supervisor, $"/setup/care?sump={Sump}", IsTablet: false),
        new("set-up, care from a template", Texts.Role_Supervisor, $"/setup/care/template?sump={Sump}", IsTablet: false),
        new("set-up, people", Texts.Role_Supervisor, "/setup/people", IsTablet: false),
        new("set-up, stations", Texts.Role_Supervisor, "/setup/stations", IsTablet: false, visit => Tablet.OfferAsync(visit)),
        new("set-up, displays", Texts.Role_Supervisor, "/setup/displays", IsTablet: false),
        new("wall", Texts.Role_Supervisor, "/board/wall", IsTablet: false),
        new("wall, no display", null, "/board/wall/open", IsTablet: false),
        new("station, enrol", null, "/account/station/enrol", IsTablet: true),
        new("station, people", Texts.Role_Supervisor, "/setup", IsTablet: true, EnrolAsync),
        new("station, PIN", Texts.Role_Supervisor, "/setup", IsTablet: true, WrongPinAsync),
        new("station, round", Texts.Role_Supervisor, "/setup", IsTablet: true, EnterByPinAsync),
    ];

    public static CheckedPage Named(string name) => All.Single(p => p.Name == name);

    /// <summary>Opens it and brings it into its state.</summary>
    internal async Task<Visit> OpenAsync(DemoServer demo, Chromium chromium)
    {
        var visit = await demo.VisitAsync(chromium, Role, IsTablet ? 800 : 1440, IsTablet ? 1280 : 900);
        await visit.GoAsync(Path);
        if (Then is not null)
        {
            await Then(visit);
            await visit.SettleAsync();
        }

        return visit;
    }

    private static async Task RefuseSignInAsync(Visit visit)
    {
        await visit.Page.Locator("#name").FillAsync("nobody");
        await visit.Page.Locator("#password").FillAsync("not the password");
        await visit.Page.Locator("button[type=submit]").ClickAsync();
        await visit.Page.Locator("[role=alert]").WaitForAsync();
    }

    private static async Task UnfoldAsync(Visit visit)
    {
        var folded = visit.Page.Locator("details:not([open]) > summary");
        while (await folded.CountAsync() > 0)
        {
            await folded.First.ClickAsync();
        }
    }

    private static async Task OpenLotAsync(Visit visit)
    {
        await visit.Page.Locator("table.lots a").First.ClickAsync();
        await visit.Page.Locator("form.setform").WaitForAsync();
    }

    private static async Task TickWorkAsync(Visit visit)
    {
        await visit.Page.Locator("tbody .tick input").First.CheckAsync();
        await visit.Page.Locator(".several input[type=date]").WaitForAsync();
    }

    private static async Task TypeListAsync(Visit visit)
    {
        await visit.Page.Locator("#f-machineList").FillAsync("S-91; M-91 Mill; East wing; 1000 x 500 x 400; 340; 60\nS-92; M-92 Mill; East wing; 1000 x 500; 340; low");
        await visit.Page.Locator("#f-machineList").PressAsync("Tab");
        await visit.Page.Locator("table.listed .fault").First.WaitForAsync();
    }

    private static async Task UnfoldFirstAsync(Visit visit) => await visit.Page.Locator(".trail details > summary").First.ClickAsync();

    private static async Task SendAsync(Visit visit, string brix, string ph, string level)
    {
        var entry = new EntryPage(visit);
        await entry.TypeAsync(brix, ph, level);
        await entry.SaveAsync();
        await visit.Page.Locator("[role=alert]").First.WaitForAsync();
    }

    private static async Task SwitchPadOnAsync(Visit visit)
    {
        await visit.Page.Locator("#pad-switch").ClickAsync();
        await visit.Page.Locator("#pad").WaitForAsync();
    }

    private static async Task FinishWithoutReasonAsync(Visit visit)
    {
        await visit.Page.Locator("footer button").ClickAsync();
        await visit.Page.Locator("#reason-fault").WaitForAsync();
    }

    private static async Task SaveAsync(Visit visit)
    {
        var entry = new EntryPage(visit);
        await entry.TypeAsync("3.0", "8.0", "220", "Seen beside the tank");
        await entry.SaveForSureAsync();
        await UnfoldAsync(visit);
    }

    private static async Task SaveWithPhotoAsync(Visit visit)
    {
        await visit.Page.Locator("#photo").SetInputFilesAsync(new FilePayload { Name = "photo.jpg", MimeType = "image/jpeg", Buffer = SamplePicture.Jpeg });
        await visit.Page.Locator("#photo-shown").WaitForAsync();
        await SaveAsync(visit);
    }

    private static async Task ShowPhotoAsync(Visit visit)
    {
        await SaveWithPhotoAsync(visit);
        await visit.Page.Locator(".shotlink").ClickAsync();
        await visit.Page.Locator(".shot.large").WaitForAsync();
    }

    // Whoever comes first begins it; the safety data sheets are never ticked.
    private static async Task StartSlideAsync(Visit visit)
    {
        await visit.Page.Locator("footer button").ClickAsync();
        await visit.Page.Locator("form[action$=discard]").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await UnfoldAsync(visit);
    }

    private static async Task TickNothingAsync(Visit visit)
    {
        var sheets = visit.Page.Locator("#now form[action$=safetysheets]");
        if (await sheets.CountAsync() == 0)
        {
            await visit.Page.Locator("footer button").ClickAsync();
            await visit.Page.WaitForURLAsync("**/drain/**");
            await visit.GoAsync($"/drain/{Drained}");
        }

        await visit.Page.Locator("footer button").ClickAsync();
        await visit.Page.Locator("[role=alert]").WaitForAsync();
        await UnfoldAsync(visit);
    }

    private static async Task EnrolAsync(Visit visit)
    {
        var (_, link) = await Tablet.OfferAsync(visit);
        await visit.GoAsync(link);
        await visit.Page.Locator("button[type=submit]").ClickAsync();
        await visit.Page.Locator(".tiles").WaitForAsync();
    }

    private static async Task WrongPinAsync(Visit visit)
    {
        await EnrolAsync(visit);
        var tablet = new Tablet(visit, "");
        await visit.Page.Locator(".tile", new() { HasText = Tablet.Vell }).ClickAsync();
        await tablet.TypePinAsync("975310");
        await visit.Page.Locator("[role=alert]").WaitForAsync();
    }

    private static async Task EnterByPinAsync(Visit visit)
    {
        await EnrolAsync(visit);
        await new Tablet(visit, "").LetInAsync(Tablet.Karrow, Tablet.KarrowPin);
    }

    private static async Task WorkAsync(Visit visit)
    {
        await visit.Page.Locator("button[aria-haspopup=dialog]").First.ClickAsync();
        await visit.Page.GetByRole(Microsoft.Playwright.AriaRole.Dialog).WaitForAsync();
    }

    private static async Task CorrectAsync(Visit visit)
    {
        await visit.Page.Locator(".tl a[href$=correct]").First.ClickAsync();
        await visit.Page.Locator("form.setform").WaitForAsync();
    }

    private static async Task CorrectWithoutReasonAsync(Visit visit)
    {
        await CorrectAsync(visit);
        await visit.Page.Locator("#f-note").FillAsync("Looked again");
        await RefuseFormAsync(visit);
    }

    private static async Task ChangeFirstAsync(Visit visit)
    {
        await visit.Page.Locator(".ways a").First.ClickAsync();
        await visit.Page.Locator("form.setform").WaitForAsync();
    }

    private static async Task DraftLimitAsync(Visit visit)
    {
        await visit.Page.Locator(".addrow select").SelectOptionAsync("concentration");
        await visit.Page.Locator("#f-limits-concentration-warningHigh").FillAsync("");
        await visit.Page.Locator("#f-limits-concentration-actionHigh").FillAsync("");
        await visit.Page.Locator("figure.trend").First.WaitForAsync();
    }

    private static async Task SearchAsync(Visit visit)
    {
        await visit.Page.Locator("#seek").FillAsync("1");
        await visit.Page.Locator("#seek-list [role=option]").First.WaitForAsync();
        await visit.Page.Keyboard.PressAsync("ArrowDown");
    }

    private static async Task RefuseFormAsync(Visit visit)
    {
        await visit.Page.Locator("form.setform button[type=submit]").ClickAsync();
        await visit.Page.Locator("form.setform [role=alert]").WaitForAsync();
    }
}

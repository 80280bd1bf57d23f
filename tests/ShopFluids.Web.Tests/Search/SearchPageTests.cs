using System.Net;
using Bunit;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Tests.Layout;
using ShopFluids.Web.Tests.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Search;

public sealed class SearchPageTests
{
    [Fact]
    public async Task Get_PartOfATag_ListsWhatFitsInGroupsWithTheirPages()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Supervisor);

        var page = await host.GetAsync("/search?q=07");

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("2 found.", page.Text, StringComparison.Ordinal);
        Assert.Contains("<h2 id=\"group-Sumps\">Sumps</h2>", page.Html, StringComparison.Ordinal);
        Assert.Contains("<a href=\"sumps/S-07\"><b>S-07</b></a>", page.Html, StringComparison.Ordinal);
        Assert.Contains("<a href=\"machines/M-07\"><b>M-07</b></a>", page.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"07\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("href=\"stores\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("href=\"setup\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"sign-out\"", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("data-ahead", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
        Assert.Contains("style-src 'self';", page.ContentPolicy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Nothing_SaysWhatMayBeTyped()
    {
        await using var host = await ShopHost.OpenAsync();

        Assert.Contains(Texts.Search_NotTyped, (await host.GetAsync("/search")).Text, StringComparison.Ordinal);
        Assert.Contains(Texts.Search_Nothing, (await host.GetAsync("/search?q=no+such+thing")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_MarkupTyped_IsShownAsText()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.GetAsync("/search?q=" + Uri.EscapeDataString("\"><script>alert(1)</script>"));

        Assert.DoesNotContain("<script>alert", page.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.GetAsync("/search/list?q=" + new string('x', 5000))).Status);
    }

    [Theory]
    [InlineData(Roles.Supervisor, true)]
    [InlineData(Roles.Operator, false)]
    [InlineData(Roles.Auditor, false)]
    public async Task Get_APerson_IsFoundBySupervisorsAlone(string role, bool isFound)
    {
        await using var host = await ShopHost.OpenAsync(role: role);

        var list = await host.GetAsync("/search/list?q=karrow");

        Assert.Equal(isFound, list.Html.Contains("board?person=", StringComparison.Ordinal));
    }

    // Who may not open the set-up still reads what a fluid is and where it stands.
    [Theory]
    [InlineData(Roles.Supervisor, "href=\"setup/fluids\"")]
    [InlineData(Roles.Auditor, "href=\"search?q=Emulsion%20A\" target=\"_top\"")]
    public async Task List_AFluid_LeadsWhereThePersonMayGo(string role, string link)
    {
        await using var host = await ShopHost.OpenAsync(role: role);

        Assert.Contains(link, (await host.GetAsync("/search/list?q=Emulsion+A")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_ALot_LeadsToItsPageAndSaysWhereItIs()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Auditor);

        var page = await host.GetAsync("/search?q=L-1");

        Assert.Contains($"<a href=\"stores/lots/{host.Shop.LotId}\"><b>L-1</b></a>", page.Html, StringComparison.Ordinal);
        Assert.Contains("In S-07", page.Text, StringComparison.Ordinal);
        Assert.Contains("Emulsion A, 188.0 L left", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_Options_AreInNamedGroupsWithIdsOfTheirOwn()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Supervisor);

        var list = await host.GetAsync("/search/list?q=07");

        Assert.Contains("data-said=\"2 found.\"", list.Html, StringComparison.Ordinal);
        Assert.Contains("role=\"group\" aria-labelledby=\"seek-Sumps\"", list.Html, StringComparison.Ordinal);
        Assert.Contains("role=\"option\" id=\"seek-0\"", list.Html, StringComparison.Ordinal);
        Assert.Contains("role=\"option\" id=\"seek-1\"", list.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("<html", list.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_NobodySignedIn_IsShownTheDoor()
    {
        await using var host = await ShopHost.OpenAsync();
        host.EndSignIn();

        Assert.Contains("/account/sign-in", (await host.GetAsync("/search?q=S-07")).Location, StringComparison.Ordinal);
        Assert.Contains("/account/sign-in", (await host.GetAsync("/search/list?q=S-07")).Location, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Box_OnTheBar_IsAComboboxAndAPlainForm()
    {
        await using var desk = await DeskContext.OpenAsync();

        desk.TakeOver();
        var bar = desk.Render<DeskBar>();

        var box = bar.Find("form[role=search] input");
        Assert.Equal(("combobox", "false", "seek-list"), (box.GetAttribute("role"), box.GetAttribute("aria-expanded"), box.GetAttribute("aria-controls")));
        Assert.Equal("search", bar.Find("form[role=search]").GetAttribute("action"));
        Assert.Equal(Texts.Search_Label, bar.Find("label[for=seek]").TextContent);
        Assert.Equal("listbox", bar.Find("#seek-list").GetAttribute("role"));
    }
}

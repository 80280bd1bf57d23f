using Bunit;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared.Loading;
using Xunit;

namespace ShopFluids.Web.Tests.Layout;

public sealed class LoadViewTests : BunitContext
{
    private int _retries;

    [Fact]
    public void Render_Loading_SaysThatItIsBusy()
    {
        var view = Draw(new Load<string>.Loading());

        Assert.Equal("true", view.Find("section").GetAttribute("aria-busy"));
        Assert.DoesNotContain("nothing here", view.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_Failed_AlertsWithTheReasonAndRetries()
    {
        var view = Draw(new Load<string>.Failed("The board was not loaded"));

        Assert.Equal("The board was not loaded", view.Find("[role=alert] h2").TextContent);
        view.Find("button").Click();
        Assert.Equal(1, _retries);
        Assert.Equal(Texts.Desk_Retry, view.Find("button").TextContent);
    }

    [Fact]
    public void Render_LoadedButEmpty_SaysWhatIsTrue()
    {
        var view = Draw(new Load<string>.Loaded(""));

        Assert.Equal("nothing here", view.Find("section.state p").TextContent);
        Assert.Empty(view.FindAll("b"));
    }

    [Fact]
    public void Render_Loaded_ShowsTheValueAlone()
    {
        var view = Draw(new Load<string>.Loaded("S-07"));

        Assert.Equal("S-07", view.Find("b").TextContent);
        Assert.Empty(view.FindAll("section"));
    }

    private IRenderedComponent<LoadView<string>> Draw(Load<string> state) => Render<LoadView<string>>(p => p
        .Add(v => v.State, state)
        .Add(v => v.IsEmpty, text => text.Length == 0)
        .Add(v => v.Retry, () =>
        {
            _retries++;
            return Task.CompletedTask;
        })
        .Add<RenderFragment>(v => v.Empty, b => b.AddMarkupContent(0, "<p>nothing here</p>"))
        .Add(v => v.ChildContent, text => $"<b>{text}</b>"));
}

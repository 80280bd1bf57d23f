using Microsoft.Playwright;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Entering;

/// <summary>Draining and cleaning on the tablet, from the plan to the first reading of the new charge.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class CleanOutPathTests(SqliteDemo demo, Chromium chromium)
{
    private const string Tag = "S-44";

    [Fact]
    public async Task EveryStep_WithoutScript_EndsWithTheFirstReadingOfANewCharge()
    {
        await using var tablet = await demo.VisitAsync(chromium, Texts.Role_Operator, hasScript: false);
        await tablet.GoAsync($"/drain/{Tag}");
        var done = tablet.Page.Locator("footer button");
        foreach (var kind in Enum.GetValues<CleanOutStepKind>())
        {
            var form = tablet.Page.Locator($"#now form[action$=\"steps/{kind.ToString().ToLowerInvariant()}\"]").First;
            await Assertions.Expect(form).ToBeVisibleAsync();
            foreach (var box in await form.Locator("input[type=checkbox]").AllAsync())
            {
                await box.CheckAsync();
            }

            var (field, value) = kind switch
            {
                CleanOutStepKind.Carrier => (CleanOutFields.Carrier, "Container 4"),
                CleanOutStepKind.Drain or CleanOutStepKind.Rinse => (CleanOutFields.WasteLitres(0), "120"),
                CleanOutStepKind.Inspect => (CleanOutFields.Seen, "Nothing worn"),
                _ => ("", ""),
            };
            if (field.Length > 0)
            {
                await form.Locator($"[name=\"{field}\"]").FillAsync(value);
            }

            await done.ClickAsync();

            // Nobody waits here for the cleaner's hours: the page asks why, once.
            if (kind == CleanOutStepKind.Cleaner)
            {
                await tablet.Page.Locator($"#now [name=\"{CleanOutFields.ShortReason}\"]").FillAsync("In since yesterday evening");
                await done.ClickAsync();
            }
        }

        await new EntryPage(tablet).TypeAsync("5", "9.1", "200");
        // The refractometer that was used there last may be one that does not compensate.
        if (tablet.Page.Locator("input[name^='temperature-concentration']") is var temperature && await temperature.IsVisibleAsync())
        {
            await temperature.FillAsync("22");
        }

        await done.ClickAsync();
        if (await tablet.Page.Locator("button[name=confirm]").CountAsync() is > 0 and var questions)
        {
            for (var n = 0; n < questions; n++)
            {
                await tablet.Page.Locator("button[name=confirm]").First.ClickAsync();
            }
        }

        await tablet.Page.WaitForURLAsync($"**/enter/{Tag}/saved/**");
        await tablet.GoAsync($"/drain/{Tag}");
        await Assertions.Expect(tablet.Page.Locator("footer button")).ToHaveTextAsync(Texts.CleanOut_Begin);
        tablet.ExpectNoFaults();
    }
}

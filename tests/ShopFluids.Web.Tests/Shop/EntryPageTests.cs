using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class EntryPageTests
{
    private const string Enter = "/enter/S-07";

    private static Dictionary<string, string> Typed(string concentration = "", string ph = "", string level = "") =>
        new() { ["value-concentration"] = concentration, ["value-ph"] = ph, ["value-level"] = level };

    // In the page from the beginning, so that it is there out of reach; shown by the script, or by the server with what was typed.
    [Theory]
    [InlineData("", true)]
    [InlineData("1", true)]
    [InlineData("2", false)]
    [InlineData("3", false)]
    public async Task Post_RefusedWithASmell_ShowsTheCautionOfTheGasBesideTheOdour(string odour, bool isHidden)
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = Typed(concentration: "much");
        typed["value-odour"] = odour;

        var page = await host.PostAsync(Enter, typed, from: Enter);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        var caution = page.Html[page.Html.IndexOf("data-warns=\"value-odour\" data-from=\"2\"", StringComparison.Ordinal)..];
        caution = caution[..caution.IndexOf("</div>", StringComparison.Ordinal)];
        Assert.Equal(isHidden, caution.Contains(" hidden", StringComparison.Ordinal));
        Assert.Contains(Texts.Caution_HydrogenSulphide[..30], WebUtility.HtmlDecode(caution), StringComparison.Ordinal);
    }

    // Ten thousand per millilitre must not be stored as ten, nor a full sump as one millimetre.
    [Theory]
    [InlineData("level", "1,000", "1,000 may be thousands or a decimal")]
    [InlineData("bacteria", "10.000", "10.000 may be thousands or a decimal")]
    [InlineData("level", "1,00", null)]
    [InlineData("level", "0,125", null)]
    public async Task Post_SignMayBeOfThousands_IsRefusedAndStays(string field, string typed, string? fault)
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.PostAsync(Enter, new() { [$"value-{field}"] = typed }, from: Enter);

        Assert.Equal(fault is not null, page.Text.Contains(fault ?? "may be thousands", StringComparison.Ordinal));
        if (fault is not null)
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
            Assert.Contains($"value=\"{typed}\"", page.Html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Post_UnlikelyValue_PutsTheCursorOnTheQuestion()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.PostAsync(Enter, Typed(ph: "11.9"), from: Enter);

        Assert.Matches("<button[^>]*id=\"again-ph\"[^>]* autofocus", page.Html);
    }

    [Fact]
    public async Task Get_KnownSump_AsksForWhatTheDueTestWantsAndFoldsTheRest()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));
        });

        var page = await host.GetAsync(Enter);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("3 to measure", page.Text, StringComparison.Ordinal);
        Assert.Contains("R-2, lapsed, checked 20 Feb, not compensated", page.Text, StringComparison.Ordinal);
        Assert.Contains("id=\"temperature-concentration\"", page.Html, StringComparison.Ordinal);
        Assert.True(page.Html.IndexOf("id=\"value-ph\"", StringComparison.Ordinal) < page.Html.IndexOf("<details class=\"more\"", StringComparison.Ordinal));
        Assert.True(page.Html.IndexOf("id=\"value-chloride\"", StringComparison.Ordinal) > page.Html.IndexOf("<details class=\"more\"", StringComparison.Ordinal));
        Assert.Contains("Concentration by titration", page.Text, StringComparison.Ordinal);
        Assert.Equal(7, Guid.Parse(page.Hidden("id")).Version);
    }

    // The number pad goes on by itself once the scale shows no more: of strips sooner than of a meter.
    [Theory]
    [InlineData(0.5, "1")]
    [InlineData(0.1, "1")]
    [InlineData(0.01, "2")]
    public async Task Get_PhInstrument_SaysHowManyDecimalsFollow(double resolution, string decimals)
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.InstrumentAsync(Some.PhMeter() with { Resolution = (decimal)resolution }));

        var page = await host.GetAsync(Enter);

        Assert.Equal(decimals, Regex.Match(page.Html, "data-parameter=\"ph\"[^>]* data-decimals=\"(?<decimals>[0-9])\"", RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1)).Groups["decimals"].Value);
    }

    // Out of reach of the server the page alone says whether a value lies inside: without a target, by the next limit.
    [Fact]
    public async Task Get_LevelHasAWarningLimitBelow_TellsItToTheTablet()
    {
        await using var host = await ShopHost.OpenAsync();

        Assert.Matches("data-parameter=\"level\"[^>]* data-low=\"[0-9.]+\"", (await host.GetAsync(Enter)).Html);
    }

    // What the page writes beside the box while somebody types, in their units and not in the shop's; a level is kept to the millimetre.
    [Theory]
    [InlineData("Metric", "= 241 mm")]
    [InlineData("UsCustomary", "= 9.49 in")]
    public async Task Preview_PersonReadsInTheirUnits_IsAnsweredInThese(string units, string expected)
    {
        await using var host = await ShopHost.OpenAsync();
        await host.PostAsync("/account/preferences", new() { ["units"] = units, ["theme"] = "light" }, from: "/account");

        var answer = await host.PreviewAsync(new { id = Some.Id(), sump = "S-07", takenAt = host.Shop.Now, measurements = new[] { new { parameter = "level", method = "direct", value = "9.5", unit = "in" } } });

        Assert.Equal(expected, $"= {answer.GetProperty("measurements")[0].GetProperty("text").GetString()}");
    }

    // The one of the last reading has lapsed.
    [Theory]
    [InlineData(false, "R-1")]
    [InlineData(true, "R-2")]
    public async Task Get_InstrumentOfTheLastReadingHasLapsed_TheOneThatHoldsStandsReady(bool isOtherChecked, string ready)
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.InstrumentAsync(Some.Refractometer());
            await shop.InstrumentAsync(Some.Refractometer("R-2") with { CheckedOn = new DateOnly(2026, isOtherChecked ? 3 : 2, 1) });
            await shop.StoreAsync(Some.Reading() with { Measurements = [Some.Typed(ParameterCodes.Concentration, 8.0m, instrument: "R-1")] });
        });

        var page = await host.GetAsync(Enter);

        Assert.Contains("R-1, lapsed, checked 20 Feb", page.Text, StringComparison.Ordinal);
        Assert.Equal(!isOtherChecked, page.Text.Contains("R-2, lapsed, checked 1 Feb", StringComparison.Ordinal));
        Assert.Equal(ready, Regex.Match(page.Html, "<option[^>]*value=\"(?<tag>R-[0-9])\"[^>]* selected", RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1)).Groups["tag"].Value);
    }

    // Whoever is sent to a sump that smelled of it must know before they bend over it.
    [Theory]
    [InlineData(1, false)]
    [InlineData(3, true)]
    public async Task Get_SumpSmelledOfTheGas_WarnsFirstOfAll(int odour, bool warns)
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
            await shop.StoreAsync(Some.Reading() with { Measurements = [.. Some.Reading().Measurements, Some.Typed(ParameterCodes.Odour, odour)] }));

        var page = await host.GetAsync(Enter);

        var before = page.Html[..page.Html.IndexOf("id=\"value-", StringComparison.Ordinal)];
        Assert.Equal(warns, WebUtility.HtmlDecode(before).Contains(Texts.Caution_HydrogenSulphide[..30], StringComparison.Ordinal));
    }

    [Fact]
    public async Task Get_Page_HasNoInlineScriptAndNoInlineStyle()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.GetAsync(Enter);

        Assert.DoesNotContain("style=", page.Html, StringComparison.Ordinal);
        Assert.All(page.Html.Split("<script").Skip(1), script => Assert.Matches("^ type=\"module\" src=\"/js/shop\\.[a-z0-9]+\\.js\"></script>", script));
        Assert.Contains("style-src 'self';", page.ContentPolicy, StringComparison.Ordinal);
        Assert.Matches("href=\"/css/shop\\.[a-z0-9]+\\.css\"", page.Html);
    }

    [Fact]
    public async Task Post_CommaDecimal_StoresTheNumberAndLeadsToItsPage()
    {
        await using var host = await ShopHost.OpenAsync();

        var answer = await host.PostAsync(Enter, Typed("8,9", "9.0", "300"));

        Assert.Equal(HttpStatusCode.SeeOther, answer.Status);
        Assert.StartsWith("/enter/S-07/saved/", answer.Location, StringComparison.Ordinal);
        var values = await host.Shop.ReadAsync(db => db.Measurements.Where(m => m.Parameter == ParameterCodes.Concentration).ToListAsync());
        Assert.Equal(8.9, Assert.Single(values).Value);
        Assert.Equal(HttpStatusCode.OK, (await host.GetAsync(answer.Location)).Status);
    }

    [Theory]
    [InlineData("value-ph", "15", "pH 15 is outside the accepted range of 0 to 14")]
    [InlineData("value-concentration", "80", "0 Brix to 30 Brix")]
    [InlineData("value-level", "412", "over the brim. The accepted range is 0 mm to 400 mm")]
    [InlineData("value-ph", "8,9.1", "8,9.1 is not a number")]
    [InlineData("value-ph", "acid", "The accepted range is 0 to 14")]
    [InlineData("takenAt", "2026-03-02T12:00", "lies in the future")]
    [InlineData("takenAt", "yesterday", "is not a date and time")]
    [InlineData("way-level", "direct/furlong", "Accepted: mm, in, %")]
    [InlineData("refractometer", "R-99", "none of the instruments known here measures this")]
    public async Task Post_RefusedValue_SaysSoAtTheFieldKeepsWhatWasTypedAndStoresNothing(string field, string value, string sentence)
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();
        var typed = Typed("8.1", "9.1", "301");
        typed["note"] = "under the chip tray";
        typed[field] = value;

        var page = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(sentence, page.Text, StringComparison.Ordinal);
        Assert.Contains("under the chip tray", page.Text, StringComparison.Ordinal);
        Assert.Contains(field == "value-concentration" ? "value=\"9.1\"" : "value=\"8.1\"", page.Html, StringComparison.Ordinal);
        if (field.StartsWith("value-", StringComparison.Ordinal))
        {
            Assert.Contains($"value=\"{value}\"", page.Html, StringComparison.Ordinal);
            Assert.Contains($"href=\"#{field}\"", page.Html, StringComparison.Ordinal);
            Assert.Contains($"id=\"{field}-fault\"", page.Html, StringComparison.Ordinal);
        }

        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_ZeroInAText_IsABadRequestAndStoresNothing()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();
        var typed = Typed("8.9", "9.0", "300");
        typed["note"] = "a\0b";

        var page = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.BadRequest, page.Status);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_BothInstrumentsUnknown_SaysSoAtEachControl()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: true));
            await shop.InstrumentAsync(Some.PhMeter());
        });
        var typed = Typed("8.1", "9.1");
        typed["refractometer"] = "R-99";
        typed["phMeter"] = "P-99";

        var page = await host.PostAsync(Enter, typed);

        foreach (var control in new[] { "refractometer", "phMeter" })
        {
            Assert.Contains($"<p id=\"{control}-fault\"", page.Html, StringComparison.Ordinal);
            Assert.Contains($"id=\"{control}\" name=\"{control}\" aria-invalid=\"true\" aria-describedby=\"{control}-fault\"", page.Html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Post_SeveralFaults_NamesEachAtOnce()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.PostAsync(Enter, Typed("80", "x", "412"));

        Assert.Contains("id=\"value-concentration-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"value-ph-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"value-level-fault\"", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_EmptyForm_AsksForAtLeastOneValue()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();

        var page = await host.PostAsync(Enter, Typed());

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("Nothing measured. Enter at least one value.", page.Text, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_NoteOfTenKilobytes_NamesTheLimitAndKeepsTheNote()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();
        var typed = Typed("8.1");
        typed["note"] = new string('n', 10_240);

        var page = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("At most 2,000 are kept.", page.Text, StringComparison.Ordinal);
        Assert.Contains(typed["note"], page.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_UncompensatedRefractometer_NeedsTheSampleTemperature()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false)));
        var typed = Typed("8.1");
        typed["refractometer"] = "R-2";

        var refused = await host.PostAsync(Enter, typed);
        typed["temperature-concentration"] = "27,5";
        var stored = await host.PostAsync(Enter, typed);

        Assert.Contains("id=\"temperature-concentration-fault\"", refused.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, stored.Status);
        Assert.Equal(27.5m, (await host.Shop.ReadAsync(db => db.Measurements.SingleAsync())).TemperatureCelsius);
    }

    [Fact]
    public async Task Post_UsCustomary_ReadsInchesUnlessToldOtherwise()
    {
        await using var host = await ShopHost.OpenAsync(open: database => ShopFixture.OpenAsync(database, Some.Site("en-US", UnitSystem.UsCustomary)));

        var page = await host.PostAsync(Enter, Typed(level: "20"));
        var stored = await host.PostAsync(Enter, Typed(level: "12"));

        Assert.Contains("0 in to 15.74 in", page.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, stored.Status);
        Assert.Equal(305, (await host.Shop.ReadAsync(db => db.Measurements.SingleAsync())).Value);
    }

    [Theory]
    [InlineData("/enter/S-99", HttpStatusCode.NotFound, "There is no sump S-99")]
    [InlineData("/enter/S-08", HttpStatusCode.Conflict, "S-08 stands empty")]
    public async Task Get_SumpThatCannotBeRead_SaysWhy(string address, HttpStatusCode status, string words)
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08")));

        var page = await host.GetAsync(address);
        var posted = await host.PostAsync(address, Typed("8.1"), from: Enter);

        Assert.Equal(status, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(status, posted.Status);
    }

    [Fact]
    public async Task Post_UnlikelyValue_AsksOnceAndStoresItConfirmed()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-6))));
        var before = await host.Shop.FootprintAsync();
        var typed = Typed("12.6", "9.0", "300");

        var question = await host.PostAsync(Enter, typed);
        typed["confirm"] = "concentration=12.6;";
        typed["id"] = question.Hidden("id");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, question.Status);
        Assert.Contains("Is 12.6 what the scale shows?", question.Text, StringComparison.Ordinal);
        Assert.Contains("It gives 12.6 %, up 4.6 in 6 days.", question.Text, StringComparison.Ordinal);
        Assert.Contains("1 question open", question.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"concentration=12.6;\"", question.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());

        Assert.Equal(HttpStatusCode.SeeOther, (await host.PostAsync(Enter, typed)).Status);
        var stored = await host.Shop.ReadAsync(db => db.Measurements.SingleAsync(m => m.RawValue == 12.6m));
        Assert.True(stored.IsConfirmed);
    }

    [Fact]
    public async Task Post_ConfirmedButChangedSince_AsksAnew()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-6))));
        var typed = Typed("13.6");
        typed["confirm"] = "concentration=12.6;";

        Assert.Contains("Is 13.6 what the scale shows?", (await host.PostAsync(Enter, typed)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_ReadAgain_EmptiesThatBoxAloneAndPutsTheCursorThere()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = Typed("25", "9.1");
        typed["again"] = "concentration";

        var page = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("value=\"25\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"9.1\"", page.Html, StringComparison.Ordinal);
        Assert.Matches("id=\"value-concentration\"[^>]*autofocus", page.Html);
    }

    [Fact]
    public async Task Post_SamePageTwice_StoresOneReading()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = Typed("8.1", "9.1", "301");
        typed["id"] = (await host.GetAsync(Enter)).Hidden("id");

        var first = await host.PostAsync(Enter, typed);
        host.Shop.Clock.Advance(TimeSpan.FromSeconds(3));
        var second = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.SeeOther, second.Status);
        Assert.Equal(first.Location, second.Location);
        Assert.Equal(1, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Post_SameIdWithOtherContent_KeepsWhatWasTypedUnderANewId()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = Typed("8.1", "9.1", "301");
        typed["id"] = (await host.GetAsync(Enter)).Hidden("id");
        await host.PostAsync(Enter, typed);
        typed["value-ph"] = "8.9";

        var page = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.Conflict, page.Status);
        Assert.Contains("saved before with other values", page.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"8.9\"", page.Html, StringComparison.Ordinal);
        Assert.NotEqual(typed["id"], page.Hidden("id"));
        Assert.Equal(1, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Post_WithoutOurToken_StoresNothingAndKeepsWhatWasTyped()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.SendAsync(Enter, Typed("8.1"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("value=\"8.1\"", page.Html, StringComparison.Ordinal);
        Assert.Equal(0, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Post_HostileNote_IsShownAsText()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = Typed("8.1", "15");
        typed["note"] = "</textarea><script>alert(1)</script>";

        var page = await host.PostAsync(Enter, typed);

        Assert.DoesNotContain("<script>", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Auditor_MayNotEnter()
    {
        await using var host = await ShopHost.OpenAsync(role: Roles.Auditor);

        Assert.Contains("/account/not-allowed", (await host.GetAsync(Enter)).Location, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_ReadWithoutOdour_SaysWhatIsStillToDo()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Concentration, ParameterCodes.Odour]));
            await shop.StoreAsync(Some.Reading());
        });

        var page = await host.GetAsync(Enter);

        Assert.Contains("Still to do: Odour.", page.Text, StringComparison.Ordinal);
        Assert.Contains("Read today already: Concentration.", page.Text, StringComparison.Ordinal);
        Assert.True(page.Html.IndexOf("id=\"value-concentration\"", StringComparison.Ordinal) > page.Html.IndexOf("<details class=\"more\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Post_TemperatureBesideACompensatedRefractometer_CountsForNothing()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.InstrumentAsync(Some.Refractometer("R-1"));
            await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));
        });
        var typed = Typed("8.1");
        typed["refractometer"] = "R-1";
        typed["temperature-concentration"] = "warm";

        var answer = await host.PostAsync(Enter, typed);

        Assert.Equal(HttpStatusCode.SeeOther, answer.Status);
        Assert.Contains("class=\"atc\" value=\"R-1\"", (await host.GetAsync(Enter)).Html, StringComparison.Ordinal);
    }
}

using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>What an address of a sheet answers: a file, or a sentence.</summary>
internal static class SheetAnswers
{
    public const string FileType = "application/pdf";

    /// <summary>The writer is not asynchronous; a sheet is small, so it is made whole and then sent.</summary>
    public static IResult File(HttpContext http, FormattableString name, Action<Stream> write)
    {
        var file = new MemoryStream();
        write(file);
        file.Position = 0;
        http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("inline") { FileNameStar = FormattableString.Invariant(name) }.ToString();
        return Results.Stream(file, FileType);
    }

    public static RazorComponentResult<SheetRefused> Refused(string sentence, int status = StatusCodes.Status400BadRequest) =>
        new(new { Sentence = sentence }) { StatusCode = status };

    public static async Task<IResult> RefusedAsync(Error? error, SetupCache setups, HttpContext http)
    {
        var isUnknown = error is SumpNotFound or MachineNotFound or MachineWithoutSump or LotNumberUnknown;
        return Refused(await SayAsync(error, setups, http.RequestAborted), isUnknown ? StatusCodes.Status404NotFound : StatusCodes.Status400BadRequest);
    }

    public static async Task<string> SayAsync(Error? error, SetupCache setups, CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(cancellationToken);
        var say = new Sentences(setup.FormatFor(), setup);
        return error switch
        {
            MachineNotFound unknown => say.Format.Say(Texts.Sheet_MachineUnknown, unknown.Tag),
            MachineWithoutSump bare => say.Format.Say(Texts.Sheet_MachineWithoutSump, bare.Tag),
            PeriodNotValid period => period.From > period.To ? Texts.Sheet_PeriodEndsFirst : say.Format.Say(Texts.Sheet_PeriodTooLong, say.Format.Count(period.MostDays)),
            { } known => say.Error(known),
            null => Texts.Failure_Server,
        };
    }
}

using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Sheets.Jobs;

/// <summary>Files that were made beside the pages, for those who asked for them.</summary>
internal static class SheetJobEndpoints
{
    public static string Address(Guid id) => $"sheets/files/{id}.pdf";

    public static void MapSheetJobs(this IEndpointRouteBuilder sheets) =>
        sheets.MapGet("/files/{id:guid}.pdf", (Guid id, SheetJobs jobs, HttpContext http) =>
            jobs.FileOf(id, http.User.PersonId()) is { } made
                ? SheetAnswers.File(http, $"history-{id}.pdf", file => file.Write(made))
                : SheetAnswers.Refused(Texts.Sheet_JobGone, StatusCodes.Status404NotFound));
}

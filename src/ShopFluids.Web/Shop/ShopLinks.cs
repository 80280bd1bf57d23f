using ShopFluids.Core.CleanOuts;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Shop.Skips;

namespace ShopFluids.Web.Shop;

/// <summary>The addresses of the shop-floor pages, under the base path that the proxy gave.</summary>
public sealed class ShopLinks(PathString basePath)
{
    public const string ToDoId = "todo";

    private readonly string _base = basePath.Value ?? "";

    public string Round => $"{_base}/round";

    public string AllSumps => $"{_base}/round?all=1";

    public string Skip => _base + SkipEndpoints.Path;

    public string FinishRound => _base + SkipEndpoints.FinishPath;

    public string Account => _base + OwnAccountEndpoints.Path;

    /// <summary>The tiles of the people of a shared tablet.</summary>
    public string Door => _base + StationEndpoints.Path;

    public string Lock => _base + StationEndpoints.LockPath;

    public string Contact => _base + StationEndpoints.ContactPath;

    public string Enter(string sumpTag) => $"{_base}/enter/{Uri.EscapeDataString(sumpTag)}";

    public string Instrument(string tag) => $"{_base}/instruments/{Uri.EscapeDataString(tag)}";

    public string SkipOf(string sumpTag) => $"{Skip}?sump={Uri.EscapeDataString(sumpTag)}";

    public string Saved(string sumpTag, Guid readingId) => $"{Enter(sumpTag)}/saved/{readingId:D}";

    /// <summary>The work on the page after saving, so that a tick does not lead back to its top.</summary>
    public string ToDo(string sumpTag, Guid readingId) => $"{Saved(sumpTag, readingId)}#{ToDoId}";

    /// <summary>A page with the photo of a reading.</summary>
    public string Photo(Guid readingId) => $"{_base}/photos/{readingId:D}";

    /// <summary>The photo itself.</summary>
    public string PhotoFile(Guid readingId) => $"{Photo(readingId)}/file";

    public string Added(string sumpTag, Guid readingId) => $"{Saved(sumpTag, readingId)}/added";

    public string Task(string sumpTag, Guid readingId, Guid taskId) => $"{Saved(sumpTag, readingId)}/tasks/{taskId:D}";

    /// <summary>A page of the desk: a PIN does not open it.</summary>
    public string Dose(string sumpTag) => $"{_base}/{SumpAddress.Dose(sumpTag)}";

    public string CleanOut(string sumpTag) => $"{_base}/drain/{Uri.EscapeDataString(sumpTag)}";

    public string CleanOutStep(string sumpTag, CleanOutStepKind kind) => $"{CleanOut(sumpTag)}/steps/{kind.ToString().ToLowerInvariant()}";

    public string CleanOutFinish(string sumpTag) => $"{CleanOut(sumpTag)}/finish";

    public string CleanOutBreakOff(string sumpTag) => $"{CleanOut(sumpTag)}/break-off";

    public string Slides(string sumpTag) => $"{_base}/slides/{Uri.EscapeDataString(sumpTag)}";

    public string SlideRead(string sumpTag, Guid slideId) => $"{Slides(sumpTag)}/{slideId:D}/read";

    public string SlideDiscard(string sumpTag, Guid slideId) => $"{Slides(sumpTag)}/{slideId:D}/discard";

    /// <summary>The entry page for what was written on paper: it takes the time of the paper over from one sump to the next.</summary>
    public string OnPaper(string sumpTag, string takenAt = "") => $"{Enter(sumpTag)}?paper={(takenAt.Length == 0 ? "1" : Uri.EscapeDataString(takenAt))}";

    public string RoundSheet => $"{_base}/sheets/round.pdf";

    public string Preview => $"{_base}/api/v1/readings/preview";

    public string File(string route) => $"{_base}/{route}";
}

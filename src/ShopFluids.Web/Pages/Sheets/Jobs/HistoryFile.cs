using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Printing;
using ShopFluids.Printing.Sheets.History;

namespace ShopFluids.Web.Pages.Sheets.Jobs;

/// <summary>The history sheets of several sumps and machines in one file, with a bookmark for each sump.</summary>
public sealed class HistoryFile(HistorySheetQuery query, SetupCache setups)
{
    /// <param name="subjects">Sumps and machines; a sump that comes with its machine is printed once.</param>
    /// <param name="from">First shop day; null begins each with its charge.</param>
    /// <param name="to">Last shop day; null for today.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="printedBy">The person's name.</param>
    public SheetWork Of(IReadOnlyList<SheetSubject> subjects, DateOnly? from, DateOnly? to, PaperSize paper, string printedBy) => async (tell, cancellationToken) =>
    {
        var sheets = new List<HistorySheet>();
        for (var n = 0; n < subjects.Count; n++)
        {
            var request = new HistorySheetRequest(subjects[n].Tag, from, to, printedBy);
            var result = await (subjects[n].IsMachine ? query.OfMachineAsync(request, cancellationToken) : query.OfSumpAsync(request, cancellationToken));
            if (result.Value is not { } found)
            {
                return SheetMade.Refused(await SheetAnswers.SayAsync(result.Error, setups, cancellationToken));
            }

            sheets.AddRange(found.Sheets);
            tell(n + 1);
        }

        using var file = new MemoryStream();
        HistorySheetPdf.Write([.. sheets.DistinctBy(s => s.Title.Tag)], paper, file);
        cancellationToken.ThrowIfCancellationRequested();
        return SheetMade.Of(file.ToArray());
    };
}

using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Start;

public sealed partial class MachineListFields
{
    private static readonly string[] InTag = ["sumpTag", "line"];
    private static readonly string[] InMachine = ["machineTag", "machineName", "process"];
    private static readonly string[] InArea = ["area"];
    private static readonly string[] InSize = ["size", "lengthMm", "widthMm", "brimMm", "displacedLitres"];
    private static readonly string[] InFullMark = ["fullMarkMm", "walkOrder"];
    private static readonly string[] InPumpIntake = ["pumpIntakeMm"];
    private IReadOnlyList<ListedSump> _listed = [];
    private bool _isFailed;

    [Parameter, EditorRequired]
    public required MachineListDraft Draft { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Inject]
    public required AddMachineListHandler Handler { get; init; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private string Hint => Words.Format.Say(Texts.Start_ListHint, QuantityInput.Unit(QuantityKind.Length, Words.Format.Units));

    private string Said => _isFailed ? Texts.Start_NotLoaded
        : (_listed.Count, _listed.Count(l => l.Errors.Count > 0)) switch
        {
            (0, _) => "",
            (1, 0) => Texts.Start_PreviewOneGood,
            var (all, bad) when bad == 0 => Words.Format.Say(Texts.Start_PreviewGood, Words.Format.Count(all)),
            var (all, bad) => Words.Format.Say(Texts.Start_PreviewBad, Words.Format.Count(bad), Words.Format.Count(all)),
        };

    // After a save the draft is another, and the table goes with the old one.
    protected override void OnParametersSet()
    {
        if (Draft.Lines.Count == 0)
        {
            _listed = [];
        }
    }

    private static IEnumerable<FieldError> ErrorsOf(ListedSump listed, string[] fields) => listed.Errors.Where(e => fields.Contains(e.Field, StringComparer.Ordinal));

    private static string MachineOf(ListedSump listed) => listed.Line.Named is { HasOwnTag: true, Tag: var tag, Name: var name } ? $"{tag} {name}" : listed.Line.Machine;

    private Task TypeAsync(string text)
    {
        Draft.Type(text, Clock.NewId);
        return PreviewAsync();
    }

    private async Task PreviewAsync()
    {
        try
        {
            _listed = await Handler.PreviewAsync(Draft.Command(Words.Format.Units, Draft.WeeklyHours.Value(Words.Format.Units) ?? 0), CancellationToken.None);
            _isFailed = false;
        }
        catch (DbException)
        {
            _isFailed = true;
        }
    }
}

using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A machine with its sump in one form; more machines make it a central system.</summary>
public sealed partial class NewSumpPage
{
    private SumpDraft _draft = new(Guid.Empty);

    [Inject]
    public required AddSumpHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        // What is being typed outlives a second read.
        if (_draft.Id == Guid.Empty)
        {
            _draft = new SumpDraft(Clock.NewId());
            AddMachine();
            _draft.WalkOrder.Show(words.Setup.Sumps.Select(s => s.WalkOrder).DefaultIfEmpty(0).Max() + 1, words.Format);
            if (words.Setup.Areas is [var only])
            {
                _draft.AreaId = only.Id.ToString();
            }

            if (words.Setup.Waters is [var water])
            {
                _draft.WaterId = water.Id.ToString();
            }
        }

        return Task.FromResult(words);
    }

    /// <summary>The first machine's fields carry the command's own names.</summary>
    private static string Of(string field, int index) => index == 0 ? field : $"{field}.{index}";

    private static string TableHint(ShopFormat format) =>
        format.Say(Texts.Setup_TableHint, QuantityInput.Unit(QuantityKind.Length, format.Units), QuantityInput.Unit(QuantityKind.Volume, format.Units));

    private void AddMachine() => _draft.Machines.Add(new MachineDraft(Clock.NewId()));

    /// <summary>The command names the field but not the machine; the refused value tells which it is.</summary>
    private string PlaceOf(FieldError error)
    {
        var index = error.Field switch
        {
            "machineTag" when error.Detail is { } tag => _draft.Machines.FindLastIndex(m => Tags.Key(m.Tag) == Tags.Key(tag)),
            "machineTag" => _draft.Machines.FindIndex(m => !Tags.IsValid(m.Tag.Trim())),
            "machineName" => _draft.Machines.FindIndex(m => m.Name.Trim().Length is 0 or > 120),
            "process" => _draft.Machines.FindIndex(m => m.Process.Trim().Length > 120),
            "weeklyHours" => _draft.Machines.FindIndex(m => NumberInput.TryRead(m.WeeklyHours.Text, out var hours) && hours is < 0 or > 168),
            _ => 0,
        };
        return index > 0 ? Of(error.Field, index) : error.Field == "brimMm" && _draft.IsTable ? "strappingTable" : error.Field;
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var machines = _draft.Machines.Select((m, i) => new NewMachine(
            m.Id,
            read.Text(Of("machineTag", i), m.Tag),
            read.Text(Of("machineName", i), m.Name),
            m.Process,
            read.Number(Of("weeklyHours", i), m.WeeklyHours),
            m.DeliveryFlags)).ToList();
        var command = new AddSump(
            _draft.Id,
            read.Id("area", _draft.AreaId),
            read.Text("sumpTag", _draft.Tag),
            Shape(read),
            read.Number("fullMarkMm", _draft.FullMark),
            read.Number("pumpIntakeMm", _draft.PumpIntake),
            read.WholeNumber("walkOrder", _draft.WalkOrder),
            Guid.TryParse(_draft.WaterId, out var water) ? water : null,
            machines);
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private SumpShape Shape(FormReader read)
    {
        if (!_draft.IsTable)
        {
            return new SumpShape(
                GeometryKind.Rectangular,
                read.Number("lengthMm", _draft.Length),
                read.Number("widthMm", _draft.Width),
                read.Number("brimMm", _draft.Brim),
                read.OptionalNumber("displacedLitres", _draft.Displaced) ?? 0,
                []);
        }

        if (!StrappingText.TryRead(_draft.Table, read.Units, out var rows, out var badLine))
        {
            read.Refuse("strappingTable", FieldProblem.NotANumber, badLine);
        }

        return new SumpShape(GeometryKind.StrappingTable, 0, 0, rows.Count == 0 ? 0 : rows[^1].LevelMm, 0, rows);
    }

    private Task<string?> Leave()
    {
        Navigation.NavigateTo(SetupAddress.Sumps(_draft.Tag.Trim()));
        return Task.FromResult<string?>(null);
    }
}

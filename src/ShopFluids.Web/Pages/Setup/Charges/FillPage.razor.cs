using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Charges;

/// <summary>Begins a charge: water and concentrate from a lot go into an empty sump.</summary>
public sealed partial class FillPage
{
    private FillDraft _draft = new(Guid.Empty);
    private string? _filled;
    private string? _refused;
    private int _charge;

    [SupplyParameterFromQuery(Name = "sump")]
    public string? Sump { get; set; }

    [Inject]
    public required LotsQuery Lots { get; init; }

    [Inject]
    public required FillSumpHandler Handler { get; init; }

    protected override async Task<FillView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var view = new FillView(words, await Lots.RunAsync(cancellationToken));
        if (_draft.ChargeId == Guid.Empty)
        {
            Begin(view);
        }

        return view;
    }

    private void Begin(FillView view)
    {
        var setup = view.Words.Setup;
        _draft = new FillDraft(Clock.NewId()) { FilledAt = DayInput.WriteTime(Clock.UtcNow, setup.Calendar) };
        if (view.Fluids is [var only])
        {
            ChooseFluid(only.Value, view);
        }

        if (_filled is null && Sump is not null && setup.FindSump(Sump) is { } sump)
        {
            if (setup.OpenCharge(sump.Id) is null)
            {
                ChooseSump(sump.Tag, view);
            }
            else
            {
                _refused = view.Words.Sentences.Error(new ChargeStillOpen(sump.Tag));
            }
        }
    }

    private void ChooseSump(string tag, FillView view)
    {
        _draft.SumpTag = tag;
        if (view.Words.Setup.FindSump(tag) is { } sump)
        {
            _draft.Volume.Show(view.Measurable(sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm)), view.Words.Format);
        }
    }

    private void ChooseFluid(string id, FillView view)
    {
        _draft.FluidId = id;
        _draft.LotId = view.Proposed(id)?.Id.ToString() ?? "";
        if (view.Words.Setup.Fluids.FirstOrDefault(f => f.Id.ToString() == id) is { } fluid)
        {
            _draft.Percent.Show(fluid.TargetPercent, view.Words.Format);
        }
    }

    private string? VolumeHint(FillView view) => view.Words.Setup.FindSump(_draft.SumpTag) is { } sump
        ? view.Words.Format.Say(Texts.Setup_VolumeHint, Litres(view, sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm)), Litres(view, sump.Geometry.BrimLitres))
        : null;

    private static string Litres(FillView view, double litres) => view.Words.Format.Volume((double)view.Measurable(litres));

    /// <summary>Amounts that were worked out stand at what they were worked out from.</summary>
    private string PlaceOf(FieldError error) => error.Field switch
    {
        _ when error.Problem == FieldProblem.LotTooSmall => "lot",
        "waterLitres" or "concentrateLitres" when !_draft.IsByAmounts => "volume",
        _ => error.Field,
    };

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var tag = read.Text("sump", _draft.SumpTag);
        var fluid = read.Id("fluid", _draft.FluidId);
        var filledAt = read.Time("filledAt", _draft.FilledAt);
        var (water, concentrate) = Amounts(read);
        if (read.HasFaults)
        {
            return null;
        }

        var command = new FillSump(
            _draft.ChargeId,
            tag,
            fluid,
            filledAt,
            water,
            concentrate,
            Guid.TryParse(_draft.LotId, out var lot) ? lot : null,
            string.IsNullOrWhiteSpace(_draft.OverrideReason) ? null : _draft.OverrideReason.Trim());
        var result = await Handler.HandleAsync(command, await Session.ActorAsync(), isSupervisor: true, CancellationToken.None);
        _charge = result.Value?.Number ?? 0;
        return AsTyped(result.Error, read.Units);
    }

    // Who typed a volume knows no amount of water: the volume is what is too much, and the brim is what there is room for.
    private Error? AsTyped(Error? error, UnitSystem units) =>
        _draft.IsByAmounts || error is not FieldErrors refused || View is not Load<FillView>.Loaded { Value: var view } || view.Words.Setup.FindSump(_draft.SumpTag) is not { } sump
            ? error
            : new FieldErrors([.. refused.Fields.Select(e => e.Problem == FieldProblem.OverTheBrim
                ? e with { Field = "volume", Value = _draft.Volume.Value(units), Low = 0, High = view.Measurable(sump.Geometry.BrimLitres) }
                : e)]);

    private (decimal Water, decimal Concentrate) Amounts(FormReader read)
    {
        if (_draft.IsByAmounts)
        {
            return (read.Number("waterLitres", _draft.Water), read.Number("concentrateLitres", _draft.Concentrate));
        }

        read.Number("volume", _draft.Volume);
        read.Number("percent", _draft.Percent);
        var measurable = View is Load<FillView>.Loaded { Value: var view } ? view.MeasurableLitres : 0.1m;
        if (_draft.Recipe(read.Units, measurable) is { } recipe)
        {
            return ((decimal)recipe.WaterLitres, (decimal)recipe.ConcentrateLitres);
        }

        if (!read.HasFaults)
        {
            var isPercent = _draft.Percent.Value(read.Units) is not (>= 0 and <= 100);
            read.Refuse(isPercent
                ? new FieldError("percent", FieldProblem.OutOfRange, _draft.Percent.Value(read.Units), 0, 100, "%")
                : new FieldError("volume", FieldProblem.OutOfRange, _draft.Volume.Value(read.Units), measurable, 100_000, "L"));
        }

        return (0, 0);
    }

    private async Task<string?> SavedAsync()
    {
        _filled = _draft.SumpTag;
        _refused = null;
        _draft = new FillDraft(Guid.Empty);
        await LoadAsync();
        var format = (await Session.WordsAsync(Leaving)).Format;
        return format.Say(Texts.Setup_Filled, _filled, format.Count(_charge));
    }
}

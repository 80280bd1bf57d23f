using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Time;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Shop.Saved;

namespace ShopFluids.Web.Pages.Board.Work;

public sealed partial class AdjustForm
{
    private static readonly string[] Boxes = [AdditionForm.WaterName, AdditionForm.ConcentrateName, AdditionForm.RemovedName, AdditionForm.LotName, AdditionForm.OverrideName];
    private Adjustment? _adjustment;
    private AdditionForm? _form;
    private AdditionRefusal? _refused;
    private Guid _id;
    private bool _isLoaded;

    [Parameter, EditorRequired]
    public required Guid TaskId { get; set; }

    [Parameter, EditorRequired]
    public required string SumpTag { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>Skips the task: nothing was added.</summary>
    [Parameter, EditorRequired]
    public required Func<string, Task<string?>> Skip { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback Changed { get; set; }

    [Inject]
    public required WorkActs Acts { get; init; }

    [Inject]
    public required AdjustmentQuery Query { get; init; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private LotChoice? Lot => _adjustment is { Recipe.ConcentrateLitres: > 0 } known ? known.Lots.For(known.Recipe.ConcentrateLitres) : null;

    private bool HasAmounts => _adjustment?.Recipe is { } recipe && recipe.WaterLitres + recipe.ConcentrateLitres + recipe.RemoveLitres > 0;

    private bool LotMissing => _adjustment is { Recipe.ConcentrateLitres: > 0 } && Lot is null;

    // One id for the addition, whatever is pressed how often: it is noted once.
    protected override async Task OnInitializedAsync()
    {
        _id = Clock.NewId();
        _adjustment = await Query.RunAsync(TaskId, CancellationToken.None);
        _isLoaded = true;
    }

    private void Open() => (_form, _refused) = (_adjustment is { } known ? AdditionForm.Of(_id, known.Recipe, Lot?.Id, Words.Format) : null, null);

    private Task AddAsRecipeAsync() => SendAsync(AdditionForm.Fresh(_id) with { AsRecipe = true, Lot = Lot?.Id.ToString() ?? "" });

    private Task NoteAsync() => _form is { } form ? SendAsync(form) : Task.CompletedTask;

    private Task ConfirmAsync() => _form is { } form ? SendAsync(form with { Confirmed = form.Confirmation }) : Task.CompletedTask;

    private async Task SendAsync(AdditionForm form)
    {
        if (_adjustment is not { } known)
        {
            return;
        }

        var amounts = form.AmountsIn(Words.Format.Units, known.Recipe);
        _refused = amounts.Faults.Count > 0
            ? new("", AdditionForm.FaultsByField(amounts.Faults, Words.Sentences))
            : await Acts.AddAsync(form.ToCommand(amounts, known.SumpTag, Clock.UtcNow, known.ReadingId, TaskId), Words.Sentences, CancellationToken.None);
        if (_refused is null)
        {
            await Changed.InvokeAsync();
        }
        else if (_refused.Fields.Count > 0 && _form is null)
        {
            // What is wrong with the recipe's own amounts can only be mended in boxes: the sump may have been filled since.
            _form = AdditionForm.Of(_id, known.Recipe, Lot?.Id, Words.Format);
        }
    }

    private string? FaultAt(string name) => _refused?.Fields.GetValueOrDefault(name);

    // A refusal that has no box of its own is said below.
    private string Whole => _refused is null ? "" : string.Join(' ', _refused.Fields.Where(f => !Boxes.Contains(f.Key, StringComparer.Ordinal)).Select(f => f.Value).Prepend(_refused.Whole).Where(t => t.Length > 0));

    private string IdOf(string name) => $"{name}-{TaskId:N}";

    private string? FaultId(string name) => FaultAt(name) is null ? null : $"{IdOf(name)}-fault";

    private static string Typed(ChangeEventArgs e) => (e.Value as string ?? "").Trim();
}

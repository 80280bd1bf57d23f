using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Charges;

/// <summary>Ends a charge.</summary>
public sealed partial class DrainPage
{
    private NumberBox _litres = new(QuantityKind.Volume);
    private Guid _removalId;
    private string _sumpTag = "";
    private string _drainedAt = "";
    private string? _drained;

    [SupplyParameterFromQuery(Name = "sump")]
    public string? Sump { get; set; }

    [Inject]
    public required DrainSumpHandler Handler { get; init; }

    protected override Task<DeskWords> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_removalId == Guid.Empty)
        {
            (_removalId, _litres) = (Clock.NewId(), new NumberBox(QuantityKind.Volume));
            _drainedAt = DayInput.WriteTime(Clock.UtcNow, words.Setup.Calendar);
            _sumpTag = _drained is null && Sump is not null && words.Setup.FindSump(Sump) is { } sump && words.Setup.OpenCharge(sump.Id) is not null ? sump.Tag : "";
        }

        return Task.FromResult(words);
    }

    private static List<Choice> Filled(DeskWords words) =>
        [.. SumpChoices.Sumps(words.Setup).Where(c => words.Setup.FindSump(c.Value) is { } sump && words.Setup.OpenCharge(sump.Id) is not null)];

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new DrainSump(_removalId, read.Text("sump", _sumpTag), read.Time("drainedAt", _drainedAt), read.Number("drainedLitres", _litres));
        return read.HasFaults ? null : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        (_drained, _removalId) = (_sumpTag, Guid.Empty);
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Drained, _drained);
    }
}

using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Fluids;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>Which template, and which of its steps.</summary>
public sealed class TemplateDraft
{
    private readonly Dictionary<string, Guid> _ids = new(StringComparer.Ordinal);
    private IReadOnlySet<string>? _chosen;

    public FluidKind Fluid { get; set; }

    public MachineUse Use { get; set; }

    public IReadOnlyList<OfferedStep> Offered(TemplateView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return view.Offered(Fluid, Use);
    }

    /// <summary>Until somebody chooses: every step that the plan does not have.</summary>
    public IReadOnlySet<string> Chosen(TemplateView view) => _chosen ?? Offered(view).Where(o => !o.IsThere).Select(o => o.Step.Code).ToHashSet(StringComparer.Ordinal);

    public void Choose(IReadOnlySet<string> chosen) => _chosen = chosen;

    /// <summary>Another template: its steps are chosen anew.</summary>
    public void ChooseFluid(string kind) => (Fluid, _chosen) = (Enum.Parse<FluidKind>(kind), null);

    public void ChooseUse(string use) => (Use, _chosen) = (Enum.Parse<MachineUse>(use), null);

    /// <summary>A step is made under one id, however often the button is pressed.</summary>
    public Guid IdOf(string code, Func<Guid> newId)
    {
        ArgumentNullException.ThrowIfNull(newId);
        return _ids.TryGetValue(code, out var id) ? id : _ids[code] = newId();
    }
}

using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A machine as it is being typed.</summary>
public sealed class MachineDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string Tag { get; set; } = "";

    public string Name { get; set; } = "";

    public string Process { get; set; } = "";

    public NumberBox WeeklyHours { get; } = new();

    public IReadOnlySet<string> Delivery { get; set; } = new HashSet<string>(StringComparer.Ordinal) { nameof(Core.Machines.Delivery.Flood) };

    /// <summary>Every field that can be changed later, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines =>
    [
        new(Texts.Setup_MachineKind, Name),
        new(Texts.FieldName_Process, Process),
        new(Texts.FieldName_WeeklyHours, WeeklyHours.Text),
        new(Texts.Setup_Delivery, string.Join(", ", SumpChoices.Delivery.Where(d => Delivery.Contains(d.Value)).Select(d => d.Text))),
    ];

    /// <summary>A machine as it is set up.</summary>
    public static MachineDraft Of(Machine machine, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(machine);
        var draft = new MachineDraft(machine.Id)
        {
            Tag = machine.Tag,
            Name = machine.Name,
            Process = machine.Process,
            Delivery = SumpChoices.Delivery.Select(d => d.Value).Where(d => machine.Delivery.HasFlag(Enum.Parse<Delivery>(d))).ToHashSet(StringComparer.Ordinal),
        };
        draft.WeeklyHours.Show(machine.WeeklyHours, format);
        return draft;
    }

    /// <summary>The name of a machine's field where several are typed; the first one's carries the command's own.</summary>
    public static string FieldOf(string field, int index) => index == 0 ? field : $"{field}.{index}";

    public Delivery DeliveryFlags => Delivery.Aggregate(Core.Machines.Delivery.None, (all, one) => all | Enum.Parse<Delivery>(one));
}

using ShopFluids.Core.Setup.MachineLists;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Start;

/// <summary>A list of machines as it is being typed.</summary>
public sealed class MachineListDraft
{
    private const decimal OneShift = 40;

    private MachineListDraft()
    {
    }

    public string Text { get; private set; } = "";

    public NumberBox WeeklyHours { get; } = new();

    /// <summary>The lines keep their ids until the text changes, so that a save that is sent twice is one save.</summary>
    public IReadOnlyList<MachineLine> Lines { get; private set; } = [];

    public static MachineListDraft Empty(ShopFormat format)
    {
        var draft = new MachineListDraft();
        draft.WeeklyHours.Show(OneShift, format);
        return draft;
    }

    public void Type(string text, Func<Guid> newId)
    {
        if (text != Text)
        {
            (Text, Lines) = (text, MachineLine.Read(text, newId));
        }
    }

    public AddMachineList Command(UnitSystem units, decimal weeklyHours) => new(Lines, units, weeklyHours);
}

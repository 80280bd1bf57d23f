using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Templates;

namespace ShopFluids.Core.Wording;

/// <summary>The words of the shipped templates. They are stored with the steps that are made from them, and can then be the shop's own.</summary>
public static class TemplateSentences
{
    // Between the steps of one text.
    private const char Then = '|';

    public static string Use(MachineUse use) => use switch
    {
        MachineUse.Machining => Texts.MachineUse_Machining,
        MachineUse.Grinding => Texts.MachineUse_Grinding,
        MachineUse.Sawing => Texts.MachineUse_Sawing,
        MachineUse.Central => Texts.MachineUse_Central,
        _ => throw new ArgumentOutOfRangeException(nameof(use), use, "There is no text for this use."),
    };

    public static string Source(TemplateSource source) => source switch
    {
        TemplateSource.CommonPractice => Texts.TemplateSource_CommonPractice,
        TemplateSource.FromMemory => Texts.TemplateSource_FromMemory,
        TemplateSource.Dguv => Texts.TemplateSource_Dguv,
        TemplateSource.Hse => Texts.TemplateSource_Hse,
        _ => throw new ArgumentOutOfRangeException(nameof(source), source, "There is no text for this source."),
    };

    /// <summary>What a step needs: what exactly, which filter, and how.</summary>
    public static StepNeeds NeedsOf(string code) => code switch
    {
        "look" => new("", "", Lines(Texts.Template_LookSteps)),
        "slide" => new("", "", Lines(Texts.Template_SlideSteps)),
        "nitrite" => new("", "", Lines(Texts.Template_NitriteSteps)),
        "skim" => new("", "", Lines(Texts.Template_SkimSteps)),
        "filter" => new("", Texts.Template_FilterType, Lines(Texts.Template_FilterSteps)),
        "filter-grinding" => new("", Texts.Template_FilterGrindingType, Lines(Texts.Template_FilterSteps)),
        "filter-central" => new("", Texts.Template_FilterCentralType, Lines(Texts.Template_FilterSteps)),
        "chips" => new(Texts.Template_Chips, "", Lines(Texts.Template_ChipsSteps)),
        "pump-intake" => new(Texts.Template_PumpIntake, "", Lines(Texts.Template_PumpIntakeSteps)),
        "check-valve" => new(Texts.Template_CheckValve, "", Lines(Texts.Template_CheckValveSteps)),
        "empty-skimmer" => new(Texts.Template_EmptySkimmer, "", Lines(Texts.Template_EmptySkimmerSteps)),
        "wash-down" => new(Texts.Template_WashDown, "", Lines(Texts.Template_WashDownSteps)),
        "through-tool" => new(Texts.Template_ThroughTool, "", Lines(Texts.Template_ThroughToolSteps)),
        "mist" => new(Texts.Template_Mist, "", Lines(Texts.Template_MistSteps)),
        _ => StepNeeds.None,
    };

    private static string[] Lines(string text) => text.Split(Then, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
}

using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Pages.Board;

/// <summary>A kind of work in as few words as a legend and a list of choices have room for.</summary>
internal static class TaskWord
{
    public static string Of(TaskKind kind) => kind switch
    {
        TaskKind.Test => Texts.Board_KindTest,
        TaskKind.Adjust => Texts.Board_KindAdjust,
        TaskKind.Skim => Texts.Board_KindSkim,
        TaskKind.ChangeFilter => Texts.Board_KindFilter,
        TaskKind.Circulate => Texts.Board_KindCirculate,
        TaskKind.Dose => Texts.Board_KindDose,
        TaskKind.DrainClean => Texts.Board_KindDrain,
        TaskKind.Inspect => Texts.Board_KindInspect,
        TaskKind.Calibrate => Texts.Board_KindCalibrate,
        TaskKind.ReadSlide => Texts.Board_KindReadSlide,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "A kind of work without a word."),
    };
}

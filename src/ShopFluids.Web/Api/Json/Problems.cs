using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>Turns what a command refused into a problem document.</summary>
internal static class Problems
{
    private const string Blank = "about:blank";

    public static JsonHttpResult<ApiProblem> Of(Error error, Sentences say) => error switch
    {
        FieldErrors fields => Fields([.. fields.Fields.Select(f => Field(f, say))]),
        SumpNotFound => Make(StatusCodes.Status404NotFound, "sumpNotFound", say.Error(error)),
        ReadingNotFound => Make(StatusCodes.Status404NotFound, "readingNotFound", say.Error(error)),
        DoseNotFound => Make(StatusCodes.Status404NotFound, "doseNotFound", say.Error(error)),
        DoseStruckAlready => Make(StatusCodes.Status409Conflict, "doseStruck", say.Error(error)),
        TaskNotFound => Make(StatusCodes.Status404NotFound, "taskNotFound", say.Error(error)),
        RuleNotFound => Make(StatusCodes.Status404NotFound, "ruleNotFound", say.Error(error)),
        FluidNotFound => Make(StatusCodes.Status404NotFound, "fluidNotFound", say.Error(error)),
        SlideNotFound => Make(StatusCodes.Status404NotFound, "slideNotFound", say.Error(error)),
        SlideEndedAlready => Make(StatusCodes.Status409Conflict, "slideEnded", say.Error(error)),
        SlideTooEarly => Make(StatusCodes.Status409Conflict, "slideTooEarly", say.Error(error)),
        SlideTooLate => Make(StatusCodes.Status409Conflict, "slideTooLate", say.Error(error)),
        ShutdownNotFound => Make(StatusCodes.Status404NotFound, "shutdownNotFound", say.Error(error)),
        ShutdownIsOver => Make(StatusCodes.Status409Conflict, "shutdownOver", say.Error(error)),
        ShutdownsOverlap => Make(StatusCodes.Status409Conflict, "shutdownsOverlap", say.Error(error)),
        CleanOutNotFound => Make(StatusCodes.Status404NotFound, "cleanOutNotFound", say.Error(error)),
        CleanOutIsOver => Make(StatusCodes.Status409Conflict, "cleanOutOver", say.Error(error)),
        CleanOutStepMissing => Make(StatusCodes.Status409Conflict, "stepMissing", say.Error(error)),
        CleanOutStepChanged => Make(StatusCodes.Status409Conflict, "stepChanged", say.Error(error)),
        CleanOutStepNeeded => Make(StatusCodes.Status409Conflict, "stepNeeded", say.Error(error)),
        SumpRetired => Make(StatusCodes.Status409Conflict, "sumpRetired", say.Error(error)),
        NoOpenCharge => Make(StatusCodes.Status409Conflict, "noOpenCharge", say.Error(error)),
        AlreadySuperseded => Make(StatusCodes.Status409Conflict, "alreadySuperseded", say.Error(error)),
        TaskEndedAlready => Make(StatusCodes.Status409Conflict, "taskEnded", say.Error(error)),
        SlideKeepsItsDay => Make(StatusCodes.Status409Conflict, "slideKeepsItsDay", say.Error(error)),
        NotTickedOff => Make(StatusCodes.Status409Conflict, "notTickedOff", say.Error(error)),
        NothingToSkip => Make(StatusCodes.Status409Conflict, "nothingToSkip", say.Error(error)),
        ChangedMeanwhile => Make(StatusCodes.Status409Conflict, "changedMeanwhile", say.Error(error)),
        NothingChanged => Make(StatusCodes.Status409Conflict, "nothingChanged", say.Error(error)),
        OtherContentForId => Make(StatusCodes.Status422UnprocessableEntity, "otherContentForId", say.Error(error)),
        _ => Make(StatusCodes.Status409Conflict, "notPossible", say.Error(error)),
    };

    public static ApiField Field(FieldError error, Sentences say) => new(error.Field, Codes.Of(error.Problem), say.Field(error), error.Value, error.Low, error.High, error.Unit, error.FirstDay, error.LastDay);

    public static JsonHttpResult<ApiProblem> Fields(IReadOnlyList<ApiField> fields) =>
        Write(new ApiProblem(Blank, Texts.Api_FieldsRefused, StatusCodes.Status400BadRequest, "fieldsRefused", fields));

    public static JsonHttpResult<ApiProblem> Make(int status, string code, string title, IReadOnlyList<ApiField>? fields = null) => Write(new ApiProblem(Blank, title, status, code, fields));

    private static JsonHttpResult<ApiProblem> Write(ApiProblem problem) =>
        TypedResults.Json(problem, ApiJson.Default.ApiProblem, "application/problem+json", problem.Status);
}

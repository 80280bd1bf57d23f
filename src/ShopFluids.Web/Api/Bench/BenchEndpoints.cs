using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Bench;

/// <summary>The calculators for programs, so that anyone can check the numbers from outside.</summary>
internal static class BenchEndpoints
{
    public static void MapBench(this IEndpointRouteBuilder api)
    {
        api.MapGet("/bench", List).WithName("ListCalculators").WithSummary("The calculators, each with the JSON Schema of what it takes and gives").Produces<JsonObject>();
        api.MapPost("/bench/{calculator}", RunAsync)
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(JsonBody.MostBytes))
            .WithName("RunCalculator").WithSummary("Runs a calculator; stores nothing")
            .Accepts<JsonObject>("application/json")
            .Produces<BenchRunAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
    }

    private static JsonHttpResult<JsonObject> List(BenchList bench) =>
        TypedResults.Json(new JsonObject { ["items"] = new JsonArray([.. bench.Calculators.Select(BenchSchema.Of)]) }, ApiJson.Default.JsonObject);

    private static async Task<IResult> RunAsync(string calculator, HttpContext http, BenchList bench, ApiSentences sentences)
    {
        if (bench.Find(calculator) is not { } found)
        {
            return Problems.Make(StatusCodes.Status404NotFound, "calculatorNotFound", Texts.Api_CalculatorUnknown);
        }

        var say = await sentences.CurrentAsync(http.RequestAborted);
        var (document, refusal) = await JsonBody.ReadAsync(http.Request, http.RequestAborted);
        using (document)
        {
            if (document is null)
            {
                return refusal ?? Results.BadRequest();
            }

            return found.Run(Read(document.RootElement), say.Format).Match(
                answer => TypedResults.Json(BenchRunAnswer.Of(found, answer), ApiJson.Default.BenchRunAnswer),
                error => (IResult)Problems.Fields(Faults(found, error, say)));
        }
    }

    // Under the label of the field in words, and its code for a program.
    private static List<ApiField> Faults(BenchCalculator calculator, Error error, Sentences say) =>
        error is FieldErrors fields
            ? [.. fields.Fields.Select(f => new ApiField(f.Field, Codes.Of(f.Problem), say.Field(f with { Field = calculator.Inputs.First(i => i.Code == f.Field).Label() }), f.Value, f.Low, f.High, f.Unit))]
            : throw new ArgumentOutOfRangeException(nameof(error), error, "A calculator refuses fields only.");

    private static Dictionary<string, BenchTyped> Read(JsonElement body)
    {
        var typed = new Dictionary<string, BenchTyped>(StringComparer.Ordinal);
        foreach (var property in body.EnumerateObject())
        {
            typed[property.Name] = property.Value.ValueKind switch
            {
                JsonValueKind.Null => new BenchTyped("", null),
                JsonValueKind.String => TextOf(property.Value),
                JsonValueKind.Array => Several(property.Value),
                _ => new BenchTyped(property.Value.GetRawText(), property.Value.ValueKind == JsonValueKind.Number && property.Value.TryGetDecimal(out var number) ? [number] : null),
            };
        }

        return typed;
    }

    private static BenchTyped TextOf(JsonElement value)
    {
        var text = value.GetString() ?? "";
        return new BenchTyped(text, NumberInput.TryRead(text, out var number) ? [number] : null);
    }

    private static BenchTyped Several(JsonElement list)
    {
        var numbers = new List<decimal>();
        foreach (var item in list.EnumerateArray())
        {
            if (item.ValueKind != JsonValueKind.Number || !item.TryGetDecimal(out var number))
            {
                return new BenchTyped(item.GetRawText(), null);
            }

            numbers.Add(number);
        }

        return new BenchTyped(numbers.Count.ToString(CultureInfo.InvariantCulture), numbers);
    }
}

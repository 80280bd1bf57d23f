using System.Text.Json.Nodes;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;

namespace ShopFluids.Web.Api.Bench;

/// <summary>What a calculator asks for and gives, as JSON Schema (draft 2020-12).</summary>
internal static class BenchSchema
{
    public static JsonObject Of(BenchCalculator calculator) => new()
    {
        ["code"] = calculator.Code,
        ["title"] = calculator.Title,
        ["lead"] = calculator.Lead,
        ["source"] = calculator.Source,
        ["input"] = Object(calculator.Inputs.Select(i => (i.Code, Input(i))), calculator.Inputs.Where(i => !i.IsOptional).Select(i => i.Code)),
        ["output"] = Object(calculator.Outputs.Select(o => (o.Code, Output(o))), []),
    };

    private static JsonObject Object(IEnumerable<(string Code, JsonObject Schema)> properties, IEnumerable<string> required) => new()
    {
        ["type"] = "object",
        ["properties"] = new JsonObject(properties.Select(p => KeyValuePair.Create<string, JsonNode?>(p.Code, p.Schema))),
        ["required"] = new JsonArray([.. required.Select(c => JsonValue.Create(c))]),
    };

    private static JsonObject Input(BenchInput input) => input switch
    {
        BenchNumber number => Number(number.Label(), number.Unit, number.Low, number.High),
        BenchSeries series => new JsonObject
        {
            ["title"] = series.Label(),
            ["type"] = "array",
            ["items"] = Number(series.Label(), series.Unit, series.Low, series.High),
            ["minItems"] = series.LeastCount,
            ["maxItems"] = BenchSeries.MostCount,
        },
        BenchChoice choice => new JsonObject
        {
            ["title"] = choice.Label(),
            ["type"] = "string",
            ["enum"] = new JsonArray([.. choice.Options.Select(o => JsonValue.Create(o.Code))]),
        },
        _ => throw new ArgumentOutOfRangeException(nameof(input), input, "There is no such kind of input."),
    };

    private static JsonObject Number(string title, string unit, decimal low, decimal high) => new()
    {
        ["title"] = title,
        ["type"] = "number",
        ["minimum"] = low,
        ["maximum"] = high,
        ["unit"] = unit,
    };

    private static JsonObject Output(BenchOutput output) => new()
    {
        ["title"] = output.Label(),
        ["type"] = "object",
        ["properties"] = new JsonObject
        {
            ["value"] = new JsonObject { ["type"] = "number" },
            ["unit"] = new JsonObject { ["const"] = output.Unit },
            ["uncertainty"] = new JsonObject { ["type"] = new JsonArray("number", "null") },
        },
    };
}

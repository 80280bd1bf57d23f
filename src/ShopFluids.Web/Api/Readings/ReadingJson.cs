using System.Globalization;
using System.Text.Json;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Readings;

/// <summary>Reads a <see cref="ReadingRequest"/>.</summary>
internal static class ReadingJson
{
    private const string Supersedes = "supersedes";

    /// <returns>The command, or what is wrong with which fields.</returns>
    public static (RecordReading? Command, IReadOnlyList<ApiField> Faults) Read(JsonElement body, Sentences say)
    {
        var fields = new JsonFields(say);
        var id = fields.RequiredId(body, FieldNames.Id, FieldNames.Id);
        var sump = fields.RequiredText(body, FieldNames.Sump, FieldNames.Sump);
        var takenAt = fields.RequiredInstant(body, FieldNames.TakenAt, FieldNames.TakenAt);
        var note = fields.Text(body, FieldNames.Note, FieldNames.Note) ?? "";
        var supersedes = fields.Id(body, Supersedes, Supersedes);
        var reason = fields.Text(body, FieldNames.CorrectionReason, FieldNames.CorrectionReason);
        var measurements = ReadMeasurements(body, fields, say, sump);
        return fields.Faults.Count == 0
            ? (new RecordReading(id.GetValueOrDefault(), sump, takenAt.GetValueOrDefault(), note, measurements, supersedes, reason), [])
            : (null, fields.Faults);
    }

    private static List<TypedMeasurement> ReadMeasurements(JsonElement body, JsonFields fields, Sentences say, string sump)
    {
        var measurements = new List<TypedMeasurement>();
        if (!body.TryGetProperty(FieldNames.Measurements, out var list) || list.ValueKind == JsonValueKind.Null)
        {
            // None at all is for the command to refuse, in its own words.
            return measurements;
        }

        if (list.ValueKind != JsonValueKind.Array)
        {
            fields.Refuse(FieldNames.Measurements, "notAList", Texts.Api_NotAList);
            return measurements;
        }

        var index = 0;
        foreach (var item in list.EnumerateArray())
        {
            var place = string.Create(CultureInfo.InvariantCulture, $"{FieldNames.Measurements}[{index++}]");
            if (item.ValueKind == JsonValueKind.Object)
            {
                measurements.Add(ReadMeasurement(item, place, fields, say, sump));
            }
            else
            {
                fields.Refuse(place, "notAnObject", Texts.Api_NotAList);
            }
        }

        return measurements;
    }

    private static TypedMeasurement ReadMeasurement(JsonElement item, string place, JsonFields fields, Sentences say, string sump)
    {
        var parameter = fields.RequiredText(item, "parameter", place + ".parameter");

        // By the parameter's name where there is one, as the command names its fields.
        var field = parameter.Length > 0 ? FieldNames.Of(parameter) : place;
        var method = fields.Text(item, "method", field + ".method");
        var unit = fields.Text(item, "unit", field + ".unit");
        var value = fields.Number(item, "value", field, say.RangeOf(sump, parameter, method, unit));
        fields.RequireGiven(item, "value", field);

        var temperature = fields.Number(item, "temperatureC", field + ".temperatureC");
        var instrument = fields.Text(item, "instrument", field + ".instrument");
        var isConfirmed = fields.Flag(item, "confirmed", field + ".confirmed");
        return new(parameter, method, value.GetValueOrDefault(), unit, temperature, instrument, isConfirmed);
    }
}

using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using ShopFluids.Core.Database;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;
using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Rules;

/// <summary>The rules, how they are set, and setting them.</summary>
internal static class RuleEndpoints
{
    public static void MapRules(this IEndpointRouteBuilder api)
    {
        api.MapGet("/rules", ListAsync).WithName("ListRules").WithSummary("The rules with their numbers: of the whole shop, or of ?fluid=NAME or ?sump=TAG")
            .Produces<ListPage<RuleAnswer>>()
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json");
        api.MapPut("/rules/{code}", SetAsync).RequireAuthorization(Policies.CanSupervise)
            .WithName("SetRule").WithSummary("Sets a rule for the whole shop, a fluid or a sump, from now on")
            .WithMetadata(new RequestSizeLimitAttribute(JsonBody.MostBytes))
            .Accepts<RuleRequest>("application/json")
            .Produces<RuleAnswer>()
            .Produces<ApiProblem>(StatusCodes.Status400BadRequest, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status404NotFound, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status409Conflict, "application/problem+json")
            .Produces<ApiProblem>(StatusCodes.Status422UnprocessableEntity, "application/problem+json");
    }

    private static async Task<IResult> ListAsync(HttpRequest request, SetupCache setups, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(cancellationToken);
        var (place, error) = RulePlace.Of(setup, request.Query["sump"].FirstOrDefault(), request.Query["fluid"].FirstOrDefault());
        return place is null
            ? Problems.Of(error ?? new FluidNotFound(), await sentences.CurrentAsync(cancellationToken))
            : TypedResults.Json(new ListPage<RuleAnswer>([.. RuleRegistry.All.Select(r => place.Answer(setup, r))], null), ApiJson.Default.ListPageRuleAnswer);
    }

    private static async Task<IResult> SetAsync(string code, HttpRequest request, ClaimsPrincipal user, SetRuleHandler handler, SetupCache setups, ApiSentences sentences, CancellationToken cancellationToken)
    {
        var say = await sentences.CurrentAsync(cancellationToken);
        var (document, refusal) = await JsonBody.ReadAsync(request, cancellationToken);
        if (document is null)
        {
            return refusal ?? Results.BadRequest();
        }

        using (document)
        {
            if (RuleRegistry.Find(code) is not { } rule)
            {
                return Problems.Of(new RuleNotFound(code), say);
            }

            var setup = await setups.CurrentAsync(cancellationToken);
            var fields = new JsonFields(say);
            var root = document.RootElement;
            var (place, error) = RulePlace.Of(setup, fields.Text(root, "sump", "sump"), fields.Text(root, "fluid", "fluid"));
            var command = Read(root, rule, place, fields);
            if (fields.Faults.Count > 0)
            {
                return Problems.Fields([.. fields.Faults.Select(OfBody)]);
            }

            if (place is null)
            {
                return Problems.Of(error ?? new FluidNotFound(), say);
            }

            var result = await handler.HandleAsync(command, user.ToActor(), cancellationToken);
            return result.Error switch
            {
                FieldErrors refused => Problems.Fields([.. refused.Fields.Select(f => OfBody(Problems.Field(f, say)))]),
                { } other => Problems.Of(other, say),
                null => TypedResults.Json(place.Answer(await setups.CurrentAsync(cancellationToken), rule), ApiJson.Default.RuleAnswer),
            };
        }
    }

    private static SetRule Read(JsonElement root, IRule rule, RulePlace? place, JsonFields fields)
    {
        var id = fields.Id(root, "id", "id");
        if (id is null && fields.Faults.Count == 0)
        {
            fields.Refuse("id", FieldProblem.Missing);
        }

        var isOn = root.TryGetProperty("isOn", out var given) && given.ValueKind != JsonValueKind.Null ? fields.Flag(root, "isOn", "isOn") : (bool?)null;
        var numbers = new Dictionary<string, decimal>(StringComparer.Ordinal);
        if (root.TryGetProperty("numbers", out var sent) && sent.ValueKind != JsonValueKind.Null)
        {
            if (sent.ValueKind != JsonValueKind.Object)
            {
                fields.Refuse("numbers", "notAnObject", Texts.Api_NotAnObject);
            }
            else
            {
                foreach (var name in sent.EnumerateObject().Select(n => n.Name).Distinct(StringComparer.Ordinal))
                {
                    var range = rule.Numbers.FirstOrDefault(n => n.Name == name) is { } number ? new AcceptedRange(number.Least, number.Most, RuleSentences.Unit(rule.Code, name)) : null;
                    if (fields.Number(sent, name, SetRuleHandler.NumberField(rule.Code, name), range) is { } value)
                    {
                        numbers[name] = value;
                    }
                }
            }
        }

        var seen = fields.Number(root, "setNumber", "seenNumber", new AcceptedRange(0, int.MaxValue, "")) ?? 0;
        return new SetRule(id ?? Guid.Empty, rule.Code, place?.FluidId, place?.SumpId, isOn, numbers, fields.Text(root, "reason", "reason") ?? "", seen is >= 0 and <= int.MaxValue ? (int)seen : -1);
    }

    // The command names a number by its rule, the body by itself.
    private static ApiField OfBody(ApiField field) =>
        field.Field.StartsWith("rules.", StringComparison.Ordinal) ? field with { Field = $"numbers.{field.Field.Split('.', 3)[^1]}" }
        : field.Field == "seenNumber" ? field with { Field = "setNumber" }
        : field;
}

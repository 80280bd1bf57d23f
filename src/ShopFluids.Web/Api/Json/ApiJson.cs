using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using ShopFluids.Core.Exchange;
using ShopFluids.Web.Api.Additions;
using ShopFluids.Web.Api.Bench;
using ShopFluids.Web.Api.CleanOuts;
using ShopFluids.Web.Api.Doses;
using ShopFluids.Web.Api.Readings;
using ShopFluids.Web.Api.Round;
using ShopFluids.Web.Api.Rules;
using ShopFluids.Web.Api.Shutdowns;
using ShopFluids.Web.Api.Slides;
using ShopFluids.Web.Api.Sumps;
using ShopFluids.Web.Api.Work;

namespace ShopFluids.Web.Api.Json;

/// <summary>Writers made at build time: an answer costs no reflection.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, Converters = [typeof(PlainDecimal)])]
[JsonSerializable(typeof(ApiProblem))]
[JsonSerializable(typeof(ReadingAnswer))]
[JsonSerializable(typeof(ListPage<ReadingRow>))]
[JsonSerializable(typeof(ListPage<SumpRow>))]
[JsonSerializable(typeof(SumpAnswer))]
[JsonSerializable(typeof(ListPage<TaskRow>))]
[JsonSerializable(typeof(ListPage<FlagRow>))]
[JsonSerializable(typeof(AdditionAnswer))]
[JsonSerializable(typeof(DoseAnswer))]
[JsonSerializable(typeof(DoseStrikeAnswer))]
[JsonSerializable(typeof(ListPage<ShopFlagRow>))]
[JsonSerializable(typeof(EndedTaskAnswer))]
[JsonSerializable(typeof(ListPage<SlideRow>))]
[JsonSerializable(typeof(StartedSlideAnswer))]
[JsonSerializable(typeof(EndedSlideAnswer))]
[JsonSerializable(typeof(ListPage<CleanOutAnswer>))]
[JsonSerializable(typeof(CleanOutAnswer))]
[JsonSerializable(typeof(CleanOutReadyAnswer))]
[JsonSerializable(typeof(FinishedCleanOutAnswer))]
[JsonSerializable(typeof(ListPage<ShutdownAnswer>))]
[JsonSerializable(typeof(ShutdownAnswer))]
[JsonSerializable(typeof(PlannedShutdownAnswer))]
[JsonSerializable(typeof(ListPage<RuleAnswer>))]
[JsonSerializable(typeof(RuleAnswer))]
[JsonSerializable(typeof(BenchRunAnswer))]
[JsonSerializable(typeof(RoundAnswer))]
[JsonSerializable(typeof(SkippedAnswer))]
[JsonSerializable(typeof(JsonObject))]
internal sealed partial class ApiJson : JsonSerializerContext;

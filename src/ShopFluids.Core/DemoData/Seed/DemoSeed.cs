using System.Text.Json;
using System.Text.Json.Serialization;
using ShopFluids.Core.Instruments;

namespace ShopFluids.Core.DemoData.Seed;

/// <summary>Everything that the files of demo-seed say. Days are counted from today: -1 is yesterday.</summary>
/// <param name="Chance">Where the invented scatter begins; another number makes another, equally likely history.</param>
/// <param name="Weeks">The length of the history.</param>
/// <param name="Password">Of every account; shown on the sign-in page.</param>
/// <param name="TokenOwner">The sign-in name whose roles the API token has.</param>
internal sealed record DemoSeed(
    int Chance,
    int Weeks,
    string Password,
    string TokenOwner,
    SiteSeed Site,
    IReadOnlyList<PersonSeed> People,
    IReadOnlyList<AreaSeed> Areas,
    IReadOnlyList<WaterSeed> Waters,
    IReadOnlyList<InstrumentSeed> Instruments)
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter() },
        NumberHandling = JsonNumberHandling.Strict,
        ReadCommentHandling = JsonCommentHandling.Skip,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    };

    [JsonIgnore]
    public IReadOnlyList<FluidSeed> Fluids { get; init; } = [];

    [JsonIgnore]
    public IReadOnlyDictionary<string, IReadOnlyList<StepSeed>> Plans { get; init; } = new Dictionary<string, IReadOnlyList<StepSeed>>(StringComparer.Ordinal);

    [JsonIgnore]
    public IReadOnlyList<SumpSeed> Sumps { get; init; } = [];

    [JsonIgnore]
    public StorySeed Story { get; init; } = new([], [], []);

    public static async Task<DemoSeed> ReadAsync(string folder, CancellationToken cancellationToken) =>
        await FileAsync<DemoSeed>(folder, "shop.json", cancellationToken) with
        {
            Fluids = await FileAsync<IReadOnlyList<FluidSeed>>(folder, "fluids.json", cancellationToken),
            Plans = await FileAsync<Dictionary<string, IReadOnlyList<StepSeed>>>(folder, "care-plans.json", cancellationToken),
            Sumps = await FileAsync<IReadOnlyList<SumpSeed>>(folder, "sumps.json", cancellationToken),
            Story = await FileAsync<StorySeed>(folder, "story.json", cancellationToken),
        };

    private static async Task<T> FileAsync<T>(string folder, string name, CancellationToken cancellationToken)
    {
        await using var file = File.OpenRead(Path.Combine(folder, name));
        return await JsonSerializer.DeserializeAsync<T>(file, Options, cancellationToken)
            ?? throw new InvalidDataException($"{name} is empty.");
    }
}

internal sealed record SiteSeed(string Name, string TimeZoneId, string Culture, string Currency, int DayStartHour, int ClosedWeekdays, decimal MeasurableLitres, string SafetySheetPlace);

/// <param name="Roles">The first is shown.</param>
/// <param name="IsShown">On the sign-in page.</param>
/// <param name="Pin">For the stations; null for who has none.</param>
internal sealed record PersonSeed(string SignInName, string DisplayName, IReadOnlyList<string> Roles, string Theme, bool IsShown = false, string? Pin = null);

/// <param name="Operators">Sign-in names of who walks it, the usual one first.</param>
internal sealed record AreaSeed(string Name, IReadOnlyList<string> Operators);

internal sealed record WaterSeed(string Name, decimal ZeroBrix, decimal HardnessMgPerLitre, decimal NitrateMgPerLitre, decimal NitriteMgPerLitre);

internal sealed record InstrumentSeed(string Tag, InstrumentKind Kind, decimal Resolution, decimal Accuracy, bool CompensatesTemperature, int CheckedDay);

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Benchmarks;

/// <summary>A shop made through the real commands before the server starts: sumps with limits and a care plan, and a token.</summary>
internal static class BenchShop
{
    /// <summary>How long ago the sumps were filled.</summary>
    public const int DaysOfCharge = 380;

    public const string SignInName = "bench";
    public const string Password = "not-a-real-password";

    public static readonly string Sump = TagOf(0);

    public static string TagOf(int number) => string.Create(CultureInfo.InvariantCulture, $"S-{number + 1:000}");

    /// <returns>The API token.</returns>
    public static async Task<string> MakeAsync(IDatabaseProvider provider, string connectionString, TimeProvider time, int sumps)
    {
        var services = new ServiceCollection().AddLogging().AddSingleton(time).AddSingleton(provider).AddShopFluidsCore().AddPeople();
        services.AddDbContextFactory<ShopFluidsDbContext>(options => provider.Configure(options, connectionString));
        await using var scope = services.BuildServiceProvider();
        await using (var db = await scope.GetRequiredService<IDbContextFactory<ShopFluidsDbContext>>().CreateDbContextAsync())
        {
            await db.Database.MigrateAsync();
        }

        var now = time.GetUtcNow().UtcDateTime;
        var actor = Actor.Program;
        Guid Id() => Guid.CreateVersion7(time.GetUtcNow());
        T Get<T>()
            where T : notnull => scope.GetRequiredService<T>();

        await Get<ShipParametersHandler>().HandleAsync(default);
        Done(await Get<SaveSiteHandler>().HandleAsync(new SaveSite(Id(), "Bench", "Europe/Berlin", "en-GB", UnitSystem.Metric, "EUR", 6, 65, 0.1m, null), actor, default));
        var (area, fluid, lot, person) = (Id(), Id(), Id(), Id());
        Done(await Get<AddAreaHandler>().HandleAsync(new AddArea(area, "Bay", 1), actor, default));
        Done(await Get<AddFluidHandler>().HandleAsync(new AddFluid(fluid, new FluidData("Semi-synthetic 60", FluidKind.SemiSynthetic, 1.5m, null, 8, 0.5m, 15, 365, null, null, null), 7, 9), actor, default));
        Done(await Get<ReceiveLotHandler>().HandleAsync(new ReceiveLot(lot, fluid, "A-1", DateOnly.FromDateTime(now).AddDays(-DaysOfCharge - 1), DateOnly.FromDateTime(now).AddYears(1), 20 * sumps, null), actor, default));
        for (var n = 0; n < sumps; n++)
        {
            Done(await Get<AddSumpHandler>().HandleAsync(
                new AddSump(Id(), area, TagOf(n), new SumpShape(GeometryKind.Rectangular, 1200, 600, 400, 0, []), 350, 100, 1, null, [new NewMachine(Id(), $"M-{TagOf(n)}", "mill", "milling", 60, Delivery.Flood)]), actor, default));
            Done(await Get<FillSumpHandler>().HandleAsync(new FillSump(Id(), TagOf(n), fluid, now.AddDays(-DaysOfCharge), 230, 20, lot), actor, isSupervisor: true, default));
            Done(await Get<AddCareStepHandler>().HandleAsync(
                new AddCareStep(Id(), TagOf(n), TaskKind.Test, IntervalBasis.FromLastDone, 7, DateOnly.FromDateTime(now).AddDays(30), ClosedDayPolicy.Later, [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level], 5), actor, default));
        }

        Done(await Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, SignInName, "Bench", Password, [Roles.Operator], "light"), actor, default));
        return (await Get<MakeTokenHandler>().HandleAsync(new MakeToken(Id(), "bench", person), actor, default)).Value?.Token ?? throw new InvalidOperationException("No token.");
    }

    private static void Done<T>(Result<T> result)
        where T : class
    {
        if (result.Error is { } error)
        {
            var why = error is FieldErrors refused ? string.Join(", ", refused.Fields) : error.ToString();
            throw new InvalidOperationException($"The shop could not be made: {why}");
        }
    }
}

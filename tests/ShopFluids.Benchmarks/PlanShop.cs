using System.Data.Common;
using System.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Benchmarks;

/// <summary>
/// The planner on a shop of a hundred sumps and on one of ten thousand, eight steps each: one pass through all of them beside one statement
/// written by hand that only selects the steps to plan, and what a stored reading costs with the planning that follows from it.
/// </summary>
internal sealed class PlanShop(IDatabaseProvider provider, string connectionString, TimeProvider time)
{
    private const int Few = 100;
    private const int Many = 10_000;
    private const int Passes = 15;
    private const int WarmUp = 2000;
    private const int Readings = 200;

    // What a person would write who wants the recurring steps without an open task, of sumps in use.
    private const string StepsToPlan = """
        SELECT p."SumpId", s."Id" FROM "CareSteps" s JOIN "CarePlans" p ON p."Id" = s."CarePlanId"
        WHERE NOT s."IsStopped" AND s."Basis" NOT IN (4, 5)
          AND EXISTS (SELECT 1 FROM "Charges" c WHERE c."SumpId" = p."SumpId" AND c."DrainedAtUtc" IS NULL)
          AND NOT EXISTS (SELECT 1 FROM "CareTasks" t WHERE t."SumpId" = p."SumpId" AND t."State" = 1 AND t."StepId" = s."Id")
        """;

    /// <returns>Milliseconds: of a pass, of its floor, of a reading among many sumps and among few.</returns>
    public async Task<(double Pass, double Statement, double AmongMany, double AmongFew)> RunAsync()
    {
        await using var connection = ManySumps.Connect(provider.Name == "postgres", connectionString);
        await connection.OpenAsync();
        var sumps = new ManySumps(connection);
        double few;
        await using (var services = Services(provider, connectionString, time))
        {
            await AddStepsAsync(services);
            await sumps.CopyAsync(BenchShop.Sump, 1, Few);
        }

        // Each with a program of its own: one that runs does not see sumps that are put in past it.
        await using (var services = Services(provider, connectionString, time))
        {
            await ReadingsAsync(services, 1, WarmUp);
            few = await ReadingsAsync(services, 1, Readings);
        }

        await sumps.CopyAsync(BenchShop.Sump, Few + 1, Many - Few);
        await using (var services = Services(provider, connectionString, time))
        {
            await ReadingsAsync(services, Few + 1, WarmUp);
            var many = await ReadingsAsync(services, Few + 1, Readings);
            var (pass, statement) = await PassesAsync(services, connection);
            return (pass, statement, many, few);
        }
    }

    private static ServiceProvider Services(IDatabaseProvider provider, string connectionString, TimeProvider time)
    {
        var services = new ServiceCollection().AddLogging().AddSingleton(time).AddSingleton(provider).AddShopFluidsCore().AddPeople();
        services.AddPooledDbContextFactory<ShopFluidsDbContext>(options => provider.Configure(options, connectionString));
        return services.BuildServiceProvider();
    }

    private async Task AddStepsAsync(ServiceProvider services)
    {
        var today = DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime);
        foreach (var (n, kind) in new[] { TaskKind.Skim, TaskKind.ChangeFilter, TaskKind.Inspect, TaskKind.Circulate, TaskKind.Skim, TaskKind.ChangeFilter, TaskKind.Inspect }.Index())
        {
            var step = new AddCareStep(
                Guid.CreateVersion7(), BenchShop.Sump, kind, n % 2 == 0 ? IntervalBasis.CalendarAnchored : IntervalBasis.FromLastDone, 7 * (n + 1), today.AddDays(n), ClosedDayPolicy.Later, [], 10);
            Done(await services.GetRequiredService<AddCareStepHandler>().HandleAsync(step, Actor.Program, default));
        }
    }

    // Over as many sumps as the small shop has, so that the readings that the rules look back at are as many in both.
    private async Task<double> ReadingsAsync(ServiceProvider services, int first, int count)
    {
        var handler = services.GetRequiredService<RecordReadingHandler>();
        var milliseconds = new List<double>(count);
        for (var n = 0; n < count; n++)
        {
            var reading = new RecordReading(Guid.CreateVersion7(), ManySumps.TagOf(first + (n % Few)), time.GetUtcNow().UtcDateTime, "",
            [
                new(ParameterCodes.Concentration, null, (50 + (n % 9)) / 10m, null, null, null),
                new(ParameterCodes.Ph, null, (89 + (n % 4)) / 10m, null, null, null),
                new(ParameterCodes.Level, null, 300 + (n % 20), null, null, null),
            ]);
            var started = Stopwatch.GetTimestamp();
            Done(await handler.HandleAsync(reading, Actor.Program, default));
            milliseconds.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
        }

        return Median(milliseconds);
    }

    private static async Task<(double Pass, double Statement)> PassesAsync(ServiceProvider services, DbConnection connection)
    {
        var handler = services.GetRequiredService<PlanMissingHandler>();
        var (passes, statements) = (new List<double>(Passes), new List<double>(Passes));
        for (var n = 0; n < Passes; n++)
        {
            var started = Stopwatch.GetTimestamp();
            var planned = await handler.HandleAsync(default);
            passes.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);

            started = Stopwatch.GetTimestamp();
            await using var command = connection.CreateCommand();
            command.CommandText = StepsToPlan;
            await using var reader = await command.ExecuteReaderAsync();
            var found = await reader.ReadAsync();
            statements.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            if (planned > 0 || found)
            {
                throw new InvalidOperationException("A sump had lost its work.");
            }
        }

        return (Median(passes), Median(statements));
    }

    private static void Done<T>(Result<T> result)
        where T : class
    {
        if (result.Error is not null)
        {
            throw new InvalidOperationException($"Refused: {result.Error}");
        }
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}

using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Record;
using ShopFluids.Rules;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>A visit to a sump: what is due is done, and what a reading asks for, mostly. Between two steps others do something elsewhere.</summary>
internal sealed class GeneratedVisit(DemoScene scene, GeneratedStores stores, BulkWrite write)
{
    private static readonly TimeSpan ToAdd = TimeSpan.FromMinutes(4);
    private static readonly TimeSpan Short = TimeSpan.FromMinutes(3);
    private static readonly TimeSpan Cleaning = TimeSpan.FromMinutes(95);
    private static readonly string[] Parameters = [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level];

    private readonly DemoReader _reader = new(scene);

    private DateTime Now => scene.Time.UtcNow;

    /// <returns>After each step, how long until the next one.</returns>
    public IEnumerable<TimeSpan> Steps(SumpActs sump, DateOnly day)
    {
        var by = scene.OperatorOf(sump.Model);
        if (sump.DueOn(day).Exists(t => t.Kind is TaskKind.Test or TaskKind.Adjust))
        {
            var (act, outcome) = sump.Read(Now, by, [.. Parameters.Select(p => _reader.Read(sump.Model, p))]);
            Record(sump, by, act);
            if (outcome.Recipe is { } recipe
                && DemoPour.Of(sump.Model, recipe, outcome.Verdict, sump.Troubles.Condition(ConditionKind.TopUp, DemoPour.Followed), sump.Troubles.Condition(ConditionKind.PlainWater, 0) > 0) is { } pour)
            {
                yield return ToAdd;
                Record(sump, by, sump.Add(Now, by, pour, stores.Draw(sump.Model.Fluid.Data.Name, pour.ConcentrateLitres, day), outcome.ReadingId));
                sump.Model.Add((double)pour.RemovedLitres, (double)pour.WaterLitres, (double)pour.ConcentrateLitres);
            }
        }

        foreach (var task in sump.DueOn(day).Where(t => t.Kind is not (TaskKind.Test or TaskKind.Adjust)))
        {
            yield return Short;
            if (!sump.Memory.IsOpen(task.Id))
            {
                continue;
            }

            if (task.Kind == TaskKind.DrainClean)
            {
                Record(sump, by, sump.Drain(Now, by, decimal.Round((decimal)sump.Model.Litres, 0)));
                yield return Cleaning;
                Fill(sump, day);
                continue;
            }

            Record(sump, by, sump.End(Now, by, task));
            if (task.Kind == TaskKind.Skim)
            {
                sump.Model.Skim();
            }
        }
    }

    /// <summary>Fills a sump to its mark.</summary>
    public void Fill(SumpActs sump, DateOnly day)
    {
        var litres = (decimal)Math.Floor(sump.Model.FullLitres);
        var concentrate = decimal.Round(litres * sump.Model.Fluid.Data.TargetPercent / 100, 1);
        var by = scene.OperatorOf(sump.Model);
        Record(sump, by, sump.Fill(Now, by, litres - concentrate, concentrate, stores.Draw(sump.Model.Fluid.Data.Name, concentrate, day)));
        sump.Model.Fill((double)(litres - concentrate), (double)concentrate);
    }

    private void Record(SumpActs sump, Actor by, SumpAct act) => write.Record(new Act(act.Code, by, Now, sump.Sump.Tag), act.Added, act.Changed);
}

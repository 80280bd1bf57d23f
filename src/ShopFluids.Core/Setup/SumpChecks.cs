using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;

namespace ShopFluids.Core.Setup;

/// <summary>What holds for a sump and its machines whether they are made, listed or changed.</summary>
internal static class SumpChecks
{
    private const int LastPlace = 9999;

    public static void Place(List<FieldError> errors, ShopSetup setup, IEnumerable<Area> areas, Guid areaId, Guid? waterSourceId, int walkOrder)
    {
        if (areas.All(a => a.Id != areaId))
        {
            errors.Add(new("area", FieldProblem.UnknownChoice));
        }

        if (waterSourceId is { } water && setup.Waters.All(w => w.Id != water))
        {
            errors.Add(new("waterSource", FieldProblem.UnknownChoice));
        }

        SetupFields.Range(errors, "walkOrder", walkOrder, 0, LastPlace);
    }

    public static void NewTag(List<FieldError> errors, ShopSetup setup, string tag)
    {
        SetupFields.Tag(errors, "sumpTag", tag);
        if (setup.FindSump(tag) is not null)
        {
            errors.Add(new("sumpTag", FieldProblem.NotUnique, Detail: tag));
        }
    }

    public static void NewMachines(List<FieldError> errors, ShopSetup setup, IReadOnlyList<NewMachine> machines)
    {
        foreach (var machine in machines)
        {
            SetupFields.Tag(errors, "machineTag", machine.Tag);
            MachineChecks.Check(errors, machine.Name, machine.Process, machine.WeeklyHours);
            if (setup.Machines.Any(m => m.TagKey == Tags.Key(machine.Tag)) || machines.Count(m => Tags.Key(m.Tag) == Tags.Key(machine.Tag)) > 1)
            {
                errors.Add(new("machineTag", FieldProblem.NotUnique, Detail: machine.Tag));
            }
        }
    }
}

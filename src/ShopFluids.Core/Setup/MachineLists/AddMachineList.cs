using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Setup.MachineLists;

/// <summary>Adds machines with their sumps by a list, all of them or none; areas that there are not yet are made.</summary>
/// <param name="Units">In which the measures were typed.</param>
/// <param name="WeeklyHours">Of each machine, until somebody says otherwise.</param>
public sealed record AddMachineList(IReadOnlyList<MachineLine> Lines, UnitSystem Units, decimal WeeklyHours);

/// <param name="SumpTags">In the order of the list.</param>
public sealed record AddedMachines(IReadOnlyList<string> SumpTags);

public sealed class AddMachineListHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public const int MostLines = 500;

    /// <summary>What the list would set up, line by line; nothing is stored.</summary>
    public async Task<IReadOnlyList<ListedSump>> PreviewAsync(AddMachineList command, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        return Reader(command, await setups.CurrentAsync(cancellationToken)).Read(command.Lines);
    }

    public async Task<Result<AddedMachines>> HandleAsync(AddMachineList command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        var added = new AddedMachines([.. command.Lines.Select(l => l.Tag)]);
        if (command.Lines.Count > 0 && command.Lines.All(l => setup.FindSump(l.SumpId) is not null))
        {
            return added;
        }

        if (setup.Site is null)
        {
            return new NoSite();
        }

        var reader = Reader(command, setup);
        var listed = reader.Read(command.Lines);
        var errors = Check(command, listed);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var now = clock.UtcNow;
        foreach (var area in reader.NewAreas)
        {
            write.Database.Add(area);
            await write.RecordAsync(new Act(ActCodes.SetupChanged, actor, now, area.Name), cancellationToken);
        }

        // An act for each, so that the record finds each by its tag.
        foreach (var sump in listed.Select(l => l.Sump))
        {
            AddSumpHandler.Store(write.Database, sump, clock.NewId());
            await write.RecordAsync(new Act(ActCodes.SetupChanged, actor, now, sump.Tag), cancellationToken);
        }

        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, now, setup.Site.Name), cancellationToken);
        return added;
    }

    private MachineListReader Reader(AddMachineList command, ShopSetup setup) => new(setup, command.Units, command.WeeklyHours, clock.NewId);

    private static List<FieldError> Check(AddMachineList command, IReadOnlyList<ListedSump> listed)
    {
        var errors = new List<FieldError>();
        MachineChecks.WeeklyHours(errors, command.WeeklyHours);
        if (listed.Count == 0)
        {
            errors.Add(new("machineList", FieldProblem.Missing));
        }
        else if (listed.Count > MostLines)
        {
            errors.Add(new("machineList", FieldProblem.WrongCount, listed.Count, 1, MostLines));
        }

        errors.AddRange(listed.SelectMany(l => l.Errors.Select(e => e with { Field = FieldNameSentences.OfLine(l.Line.Number, e.Field) })));
        return errors;
    }
}

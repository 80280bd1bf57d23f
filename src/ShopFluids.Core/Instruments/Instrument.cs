using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Instruments;

public enum InstrumentKind : short
{
    Refractometer = 1,
    PhMeter = 2,
    PhStrips = 3,
    Rule = 4,
}

/// <summary>What a value was read from; its resolution and accuracy enter the uncertainty.</summary>
public sealed class Instrument : Entity, ISetup
{
    private Instrument()
    {
    }

    public Instrument(Guid id, string tag, InstrumentKind kind, decimal resolution, decimal accuracy, bool compensatesTemperature, DateOnly? checkedOn, int? checkEveryDays = null)
    {
        Id = id;
        Tag = tag;
        TagKey = Tags.Key(tag);
        Kind = kind;
        CheckedOn = checkedOn;
        Change(resolution, accuracy, compensatesTemperature, checkEveryDays);
    }

    public string Tag { get; private set; } = "";

    public string TagKey { get; private set; } = "";

    public InstrumentKind Kind { get; private set; }

    /// <summary>Smallest step that can be read, in the unit of the scale.</summary>
    public decimal Resolution { get; private set; }

    /// <summary>Its scale shows hundredths, as that of a pH meter does.</summary>
    public bool ShowsHundredths => Resolution < 0.1m;

    /// <summary>Stated accuracy as a half width, in the unit of the scale.</summary>
    public decimal Accuracy { get; private set; }

    /// <summary>A refractometer with automatic temperature compensation needs no correction.</summary>
    public bool CompensatesTemperature { get; private set; }

    public DateOnly? CheckedOn { get; private set; }

    /// <summary>For how many days a check holds; null for what is usual.</summary>
    public int? CheckEveryDays { get; private set; }

    /// <summary>The shop day on which it was lost, broken or put away; null while it is in use.</summary>
    public DateOnly? OutOfUseSince { get; private set; }

    /// <summary>A meter goes out of true without showing it; a strip or a rule does not. What is out of use waits for no check.</summary>
    public bool NeedsChecks => this is { OutOfUseSince: null, Kind: InstrumentKind.Refractometer or InstrumentKind.PhMeter };

    /// <summary>The last shop day on which its last check holds; null where none that it passed stands, or none is needed.</summary>
    public DateOnly? HoldsUntil => this is { NeedsChecks: true, CheckedOn: { } day } ? InstrumentCheckRule.HoldsUntil(day, CheckEveryDays ?? InstrumentCheckRule.UsualDays) : null;

    /// <summary>What is read with it on a day is marked.</summary>
    public bool IsLapsedOn(DateOnly day) => NeedsChecks && !(HoldsUntil >= day);

    public void Change(decimal resolution, decimal accuracy, bool compensatesTemperature, int? checkEveryDays)
    {
        Resolution = resolution;
        Accuracy = accuracy;
        CompensatesTemperature = compensatesTemperature;
        CheckEveryDays = checkEveryDays;
    }

    /// <summary>Takes it out of use, or back into it. What was read with it keeps its name.</summary>
    public void Use(bool isInUse, DateOnly today) => OutOfUseSince = isInUse ? null : OutOfUseSince ?? today;

    /// <summary>Takes the outcome of its latest check: after one that it failed it counts as not checked until it passes one.</summary>
    public void Note(DateOnly day, bool passes)
    {
        // Set up as checked on a later day than that: what is noted late does not take that back.
        if (CheckedOn is not { } last || day >= last)
        {
            CheckedOn = passes ? day : null;
        }
    }
}

internal sealed class InstrumentConfiguration : IEntityTypeConfiguration<Instrument>
{
    public void Configure(EntityTypeBuilder<Instrument> builder)
    {
        builder.Property(i => i.Tag).HasMaxLength(Tags.MaximumLength);
        builder.Property(i => i.TagKey).HasMaxLength(Tags.MaximumLength);
        builder.HasIndex(i => i.TagKey).IsUnique();
        builder.Property(i => i.CheckEveryDays).CameLater();
        builder.Property(i => i.OutOfUseSince).CameLater();
        builder.Ignore(i => i.NeedsChecks);
        builder.Ignore(i => i.HoldsUntil);
    }
}

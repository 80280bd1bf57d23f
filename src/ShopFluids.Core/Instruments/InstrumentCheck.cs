using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Instruments;

/// <summary>One check of an instrument: the standards, what it showed in them, and whether it passed. Never changed.</summary>
public sealed class InstrumentCheck : Entity
{
    public const int MaximumNoteLength = 500;

    private InstrumentCheck()
    {
    }

    internal InstrumentCheck(NoteInstrumentCheck noted, CheckResult result, DateTime notedAtUtc, Guid? personId)
    {
        Id = noted.Id;
        InstrumentId = noted.InstrumentId;
        CheckedOn = noted.CheckedOn;
        NotedAtUtc = notedAtUtc;
        PersonId = personId;
        IsInMillivolts = noted.IsInMillivolts;
        Celsius = noted.Celsius;
        (FirstStandard, FirstShown) = (noted.First?.Standard, noted.First?.Shown);
        (SecondStandard, SecondShown) = (noted.Second?.Standard, noted.Second?.Shown);
        (Passes, Offset, SlopePercent) = (result.Passes, result.Offset, result.SlopePercent);
        Note = noted.Note.Trim();
    }

    public Guid InstrumentId { get; private set; }

    /// <summary>The shop day.</summary>
    public DateOnly CheckedOn { get; private set; }

    public DateTime NotedAtUtc { get; private set; }

    public Guid? PersonId { get; private set; }

    /// <summary>What a pH electrode showed is its voltage, not its pH.</summary>
    public bool IsInMillivolts { get; private set; }

    /// <summary>Of the buffers, °C; only with millivolts.</summary>
    public decimal? Celsius { get; private set; }

    /// <summary>°Brix or pH; null where it was checked without a standard.</summary>
    public decimal? FirstStandard { get; private set; }

    public decimal? FirstShown { get; private set; }

    public decimal? SecondStandard { get; private set; }

    public decimal? SecondShown { get; private set; }

    /// <summary>What it shows too much in the first standard; in millivolts the voltage at pH 7.</summary>
    public decimal? Offset { get; private set; }

    public decimal? SlopePercent { get; private set; }

    public bool Passes { get; private set; }

    public string Note { get; private set; } = "";

    /// <summary>Whether a command that carries its id says the same.</summary>
    internal bool Holds(NoteInstrumentCheck noted) =>
        InstrumentId == noted.InstrumentId
        && CheckedOn == noted.CheckedOn
        && (FirstStandard, FirstShown) == (noted.First?.Standard, noted.First?.Shown)
        && (SecondStandard, SecondShown) == (noted.Second?.Standard, noted.Second?.Shown)
        && (IsInMillivolts, Celsius) == (noted.IsInMillivolts, noted.Celsius)
        && Note == noted.Note.Trim();
}

internal sealed class InstrumentCheckConfiguration : IEntityTypeConfiguration<InstrumentCheck>
{
    public void Configure(EntityTypeBuilder<InstrumentCheck> builder)
    {
        builder.HasIndex(c => new { c.InstrumentId, c.CheckedOn });
        builder.Property(c => c.Note).HasMaxLength(InstrumentCheck.MaximumNoteLength);
        builder.HasOne<Instrument>().WithMany().HasForeignKey(c => c.InstrumentId).OnDelete(DeleteBehavior.Restrict);
    }
}

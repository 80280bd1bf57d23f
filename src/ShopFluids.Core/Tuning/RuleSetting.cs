using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Tuning;

/// <summary>Where a setting of a rule comes from; what stands later goes before what stands earlier.</summary>
public enum RuleLevel
{
    /// <summary>The rule's own default.</summary>
    Shipped,

    Shop,

    Fluid,

    Sump,
}

/// <summary>
/// One version of how a rule is set for the whole shop, a fluid or a sump. A change makes a new version, in force from the moment at which it
/// was stored: the record's order tells by which one a reading was judged.
/// </summary>
public sealed class RuleSetting : Entity, ISetup
{
    private RuleSetting()
    {
    }

    public RuleSetting(Guid id, string rule, Guid? fluidId, Guid? sumpId, int number, bool? isOn, IReadOnlyDictionary<string, decimal> numbers, string reason, DateTime setAtUtc, Guid? personId)
    {
        Id = id;
        Rule = rule;
        FluidId = fluidId;
        SumpId = sumpId;
        Number = number;
        IsOn = isOn;
        Numbers = numbers;
        Reason = reason;
        SetAtUtc = setAtUtc;
        PersonId = personId;
    }

    public string Rule { get; private set; } = "";

    /// <summary>Null where it is the shop's or a sump's.</summary>
    public Guid? FluidId { get; private set; }

    /// <summary>Null where it is the shop's or a fluid's.</summary>
    public Guid? SumpId { get; private set; }

    /// <summary>1, 2, 3 ... of this rule at this place.</summary>
    public int Number { get; private set; }

    /// <summary>Null where this place leaves it to the one above.</summary>
    public bool? IsOn { get; private set; }

    /// <summary>Only what is set here; every other number comes from the place above.</summary>
    public IReadOnlyDictionary<string, decimal> Numbers { get; private set; } = new Dictionary<string, decimal>(StringComparer.Ordinal);

    public string Reason { get; private set; } = "";

    public DateTime SetAtUtc { get; private set; }

    /// <summary>Who set it; null for the program.</summary>
    public Guid? PersonId { get; private set; }

    public RuleLevel Level => SumpId is not null ? RuleLevel.Sump : FluidId is not null ? RuleLevel.Fluid : RuleLevel.Shop;
}

internal sealed class RuleSettingConfiguration : IEntityTypeConfiguration<RuleSetting>
{
    public void Configure(EntityTypeBuilder<RuleSetting> builder)
    {
        builder.Property(s => s.Rule).HasMaxLength(40);
        builder.Property(s => s.Reason).HasMaxLength(SetRuleHandler.MaximumReasonLength);
        builder.Property(s => s.Numbers).HasConversion(JsonColumn.Converter<IReadOnlyDictionary<string, decimal>>(), JsonColumn.Comparer<IReadOnlyDictionary<string, decimal>>());
        builder.HasIndex(s => new { s.Rule, s.FluidId, s.Number }).IsUnique().HasFilter("\"FluidId\" IS NOT NULL");
        builder.HasIndex(s => new { s.Rule, s.SumpId, s.Number }).IsUnique().HasFilter("\"SumpId\" IS NOT NULL");
        builder.HasIndex(s => new { s.Rule, s.Number }, "IX_RuleSettings_OfTheShop").IsUnique().HasFilter("\"FluidId\" IS NULL AND \"SumpId\" IS NULL");
        builder.HasOne<Fluid>().WithMany().HasForeignKey(s => s.FluidId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Sump>().WithMany().HasForeignKey(s => s.SumpId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(t => t.HasCheckConstraint("CK_RuleSettings_Owner", "\"FluidId\" IS NULL OR \"SumpId\" IS NULL"));
    }
}

using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Water;

namespace ShopFluids.Core.Database;

/// <summary>The one model, the same on both engines. Recorded entities are saved only through <see cref="ShopWrite"/>.</summary>
public sealed class ShopFluidsDbContext(DbContextOptions<ShopFluidsDbContext> options)
    : IdentityDbContext<Person, IdentityRole<Guid>, Guid>(options), IDataProtectionKeyContext
{
    public DbSet<Site> Sites => Set<Site>();

    public DbSet<Area> Areas => Set<Area>();

    public DbSet<Machine> Machines => Set<Machine>();

    public DbSet<Sump> Sumps => Set<Sump>();

    public DbSet<Standing> Standings => Set<Standing>();

    public DbSet<WaterSource> WaterSources => Set<WaterSource>();

    public DbSet<Instrument> Instruments => Set<Instrument>();

    public DbSet<InstrumentCheck> InstrumentChecks => Set<InstrumentCheck>();

    public DbSet<Fluid> Fluids => Set<Fluid>();

    public DbSet<FluidLot> FluidLots => Set<FluidLot>();

    public DbSet<LotAdjustment> LotAdjustments => Set<LotAdjustment>();

    public DbSet<Charge> Charges => Set<Charge>();

    public DbSet<Addition> Additions => Set<Addition>();

    public DbSet<Removal> Removals => Set<Removal>();

    public DbSet<Dose> Doses => Set<Dose>();

    public DbSet<DoseStrike> DoseStrikes => Set<DoseStrike>();

    public DbSet<Parameter> Parameters => Set<Parameter>();

    public DbSet<LimitSet> LimitSets => Set<LimitSet>();

    public DbSet<Rejudgement> Rejudgements => Set<Rejudgement>();

    public DbSet<RuleSetting> RuleSettings => Set<RuleSetting>();

    public DbSet<Reading> Readings => Set<Reading>();

    public DbSet<Measurement> Measurements => Set<Measurement>();

    public DbSet<Photo> Photos => Set<Photo>();

    public DbSet<PhotoContent> PhotoContents => Set<PhotoContent>();

    public DbSet<Flag> Flags => Set<Flag>();

    public DbSet<ShopFlag> ShopFlags => Set<ShopFlag>();

    public DbSet<EscalationNotice> EscalationNotices => Set<EscalationNotice>();

    public DbSet<CarePlan> CarePlans => Set<CarePlan>();

    public DbSet<CareStep> CareSteps => Set<CareStep>();

    public DbSet<CareTask> CareTasks => Set<CareTask>();

    public DbSet<CleanOut> CleanOuts => Set<CleanOut>();

    public DbSet<CleanOutStep> CleanOutSteps => Set<CleanOutStep>();

    public DbSet<Slide> Slides => Set<Slide>();

    public DbSet<SkippedStop> SkippedStops => Set<SkippedStop>();

    public DbSet<Shutdown> Shutdowns => Set<Shutdown>();

    public DbSet<PersonNumber> PersonNumbers => Set<PersonNumber>();

    public DbSet<ApiToken> ApiTokens => Set<ApiToken>();

    public DbSet<Station> Stations => Set<Station>();

    public DbSet<StationKey> StationKeys => Set<StationKey>();

    public DbSet<StationContact> StationContacts => Set<StationContact>();

    public DbSet<Display> Displays => Set<Display>();

    public DbSet<DisplayKey> DisplayKeys => Set<DisplayKey>();

    public DbSet<PinBackoff> PinBackoffs => Set<PinBackoff>();

    public DbSet<RecordEntry> RecordEntries => Set<RecordEntry>();

    public DbSet<RecordHead> RecordHead => Set<RecordHead>();

    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <summary>Set by <see cref="ShopWrite"/> once the record entry of the changes is written.</summary>
    internal bool IsActing { get; set; }

    public override int SaveChanges(bool acceptAllChangesOnSuccess) =>
        throw new NotSupportedException("Save asynchronously.");

    public override Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        if (!IsActing)
        {
            if (ChangeTracker.Entries<IRecorded>().Any(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted))
            {
                throw new InvalidOperationException("Recorded entities are saved through ShopWrite, so that the record has the act.");
            }

            RaiseVersions();
        }

        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    internal void RaiseVersions()
    {
        foreach (var entry in ChangeTracker.Entries<IVersioned>())
        {
            RaiseVersion(entry);
        }
    }

    internal static void RaiseVersion(EntityEntry<IVersioned> entry)
    {
        if (entry.State is EntityState.Added or EntityState.Modified)
        {
            entry.Property(e => e.Version).CurrentValue = entry.Property(e => e.Version).OriginalValue + 1;
        }
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcInstant>();
        configurationBuilder.Properties<decimal>().HavePrecision(18, 6);
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(ShopFluidsDbContext).Assembly);
        foreach (var type in builder.Model.GetEntityTypes())
        {
            if (typeof(IVersioned).IsAssignableFrom(type.ClrType))
            {
                builder.Entity(type.ClrType).Property(nameof(IVersioned.Version)).IsConcurrencyToken();
            }

            if (typeof(Entity).IsAssignableFrom(type.ClrType))
            {
                builder.Entity(type.ClrType).Property(nameof(Entity.Id)).ValueGeneratedNever();
            }
        }
    }
}

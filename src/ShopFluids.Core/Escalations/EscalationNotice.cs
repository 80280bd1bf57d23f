using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Escalations;

/// <summary>
/// A message that waits to be sent, stored in the transaction that marked its flags. It stands in no record: that a flag went to the supervisor does, and
/// whether a letter got through changes nothing of it.
/// </summary>
public sealed class EscalationNotice
{
    public const int MaximumFaultLength = 200;

    private EscalationNotice()
    {
    }

    public EscalationNotice(Guid id, EscalationChannel channel, DateTime madeAtUtc, EscalationContent content)
    {
        Id = id;
        Channel = channel;
        MadeAtUtc = madeAtUtc;
        NextTryAtUtc = madeAtUtc;
        Content = content;
    }

    /// <summary>The same at every try, so that whoever gets it twice can tell.</summary>
    public Guid Id { get; private set; }

    public EscalationChannel Channel { get; private set; }

    public DateTime MadeAtUtc { get; private set; }

    public EscalationContent Content { get; private set; } = new("", []);

    public int Tries { get; private set; }

    /// <summary>Until then nobody tries: it waits after a failure, or some instance is sending it.</summary>
    public DateTime NextTryAtUtc { get; private set; }

    /// <summary>When it was sent or given up; null while it waits.</summary>
    public DateTime? EndedAtUtc { get; private set; }

    public bool IsSent { get; private set; }

    /// <summary>Why the last try failed.</summary>
    public string? LastFault { get; private set; }

    /// <summary>Taken by one instance, which has this long to send it and to say how it went.</summary>
    public void Take(DateTime nowUtc, TimeSpan lease)
    {
        Tries++;
        NextTryAtUtc = nowUtc + lease;
    }

    public void Send(DateTime nowUtc) => (EndedAtUtc, IsSent, LastFault) = (nowUtc, true, null);

    public void Fail(string fault, DateTime nextTryAtUtc) => (LastFault, NextTryAtUtc) = (Cut(fault), nextTryAtUtc);

    public void GiveUp(string fault, DateTime nowUtc) => (LastFault, EndedAtUtc) = (Cut(fault), nowUtc);

    private static string Cut(string fault) => fault.Length > MaximumFaultLength ? fault[..MaximumFaultLength] : fault;
}

internal sealed class EscalationNoticeConfiguration : IEntityTypeConfiguration<EscalationNotice>
{
    public void Configure(EntityTypeBuilder<EscalationNotice> builder)
    {
        builder.Property(n => n.Id).ValueGeneratedNever();
        builder.Property(n => n.Content).HasConversion(JsonColumn.Converter<EscalationContent>(), JsonColumn.Comparer<EscalationContent>());
        builder.Property(n => n.LastFault).HasMaxLength(EscalationNotice.MaximumFaultLength);
        builder.HasIndex(n => n.NextTryAtUtc, "IX_EscalationNotices_Waiting").HasFilter("\"EndedAtUtc\" IS NULL");
    }
}

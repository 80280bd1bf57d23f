namespace ShopFluids.Web.Startup;

/// <summary>The clock of this machine. Only the composition root makes one; everything else takes a <see cref="TimeProvider"/>.</summary>
internal sealed class SystemTime : TimeProvider;

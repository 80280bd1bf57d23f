using Microsoft.Extensions.DependencyInjection;

namespace ShopFluids.Core.Exchange;

public static class ExchangeServices
{
    /// <summary>What other programs read.</summary>
    public static IServiceCollection AddExchange(this IServiceCollection services) => services
        .AddSingleton<SumpStatesQuery>()
        .AddSingleton<StoredReadingsQuery>()
        .AddSingleton<TasksQuery>()
        .AddSingleton<FlagsQuery>();
}

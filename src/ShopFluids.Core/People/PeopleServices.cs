using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFluids.Core.Displays;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;

namespace ShopFluids.Core.People;

public static class PeopleServices
{
    /// <summary>Commands and queries hold no state of their own, hence singletons.</summary>
    public static IServiceCollection AddPeople(this IServiceCollection services)
    {
        services.TryAddSingleton<IPasswordHasher<Person>, PasswordHasher<Person>>();
        services.TryAddSingleton<ILookupNormalizer, UpperInvariantLookupNormalizer>();
        services.AddSingleton<AccountMaker>();
        services.AddSingleton<MakeAccountHandler>();
        services.AddSingleton<ChangeAccountHandler>();
        services.AddSingleton<OpenShopHandler>();
        services.AddSingleton<NumberPeopleHandler>();
        services.AddSingleton<RenameToNumberHandler>();
        services.AddSingleton<MakeTokenHandler>();
        services.AddSingleton<RevokeTokenHandler>();
        services.AddSingleton<AccountsQuery>();
        services.AddSingleton<SetPinHandler>();
        services.AddSingleton<TryPinHandler>();
        services.AddSingleton<SetUpStationsHandler>();
        services.AddSingleton<EnrolStationHandler>();
        services.AddSingleton<NoteContactHandler>();
        services.AddSingleton<StationsQuery>();
        services.AddSingleton<SetUpDisplaysHandler>();
        services.AddSingleton<DisplaysQuery>();
        return services;
    }
}

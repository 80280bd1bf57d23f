using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.People;

/// <summary>A shop with people who have PINs, and tablets to type them at.</summary>
internal sealed class PinDesk(ShopFixture shop) : IAsyncDisposable
{
    public const string Pin = "204816";
    public const string WrongPin = "975310";

    private int _people;

    public ShopFixture Shop => shop;

    public static async Task<PinDesk> OpenAsync(TestDatabase database) => new(await ShopFixture.OpenAsync(database));

    public async Task<StationHere> StationAsync(string name) => await HereAsync((await EnrolAsync(name)).Secret) ?? throw new InvalidOperationException($"{name} is no station.");

    public async Task<EnrolledStation> EnrolAsync(string name)
    {
        var offered = (await shop.Get<SetUpStationsHandler>().HandleAsync(new AddStation(Some.Id(), name, "", "shop"), Some.Supervisor, default)).Done();
        return (await shop.Get<EnrolStationHandler>().HandleAsync(new EnrolStation(offered.Code), default)).Done();
    }

    public Task<StationHere?> HereAsync(string secret) => shop.Get<StationsQuery>().OfSecretAsync(secret, default);

    public async Task<Guid> PersonAsync(string? pin = Pin, string role = Roles.Operator)
    {
        var id = Some.Id();
        var name = $"op{++_people}";
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(id, name, $"Op {_people}", "ten signs and more", [role], "light"), Some.Supervisor, default)).Done();
        if (pin is not null)
        {
            (await shop.Get<SetPinHandler>().HandleAsync(new SetPin(id, pin), Some.Supervisor, default)).Done();
        }

        return id;
    }

    public Task<Result<RightPin>> TryAsync(StationHere station, Guid person, string pin) =>
        shop.Get<TryPinHandler>().HandleAsync(new TryPin(station, person, pin), default);

    public ValueTask DisposeAsync() => shop.DisposeAsync();
}

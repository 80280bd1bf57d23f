using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;

namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>A server on a test's own database that holds a shop of one sump, and a program with a token to it.</summary>
internal sealed class SmallShop : IAsyncDisposable
{
    private readonly TestDatabase _database;
    private readonly string _token;

    private SmallShop(TestDatabase database, ServerData data, ServerProcess server, string token)
    {
        _database = database;
        Data = data;
        Server = server;
        _token = token;
        Api = new ApiClient(server.Address, token);
    }

    public const string Password = "coolant-and-chips";

    public ServerData Data { get; }

    public ServerProcess Server { get; private set; }

    public ApiClient Api { get; private set; }

    /// <param name="more">What else is in the shop before the server starts.</param>
    public static async Task<SmallShop> OpenAsync(TestDatabase database, Func<ShopFixture, Task>? more = null)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        if (more is not null)
        {
            await more(shop);
        }

        await AccountAsync(shop, "op", "An operator", Roles.Operator);
        var person = await AccountAsync(shop, "sup", "A supervisor", Roles.Supervisor);
        var token = (await shop.Get<MakeTokenHandler>().HandleAsync(new MakeToken(Some.Id(), "script", person), Actor.Program, default)).Done().Token;
        var data = ServerData.New(database.Engine, database.ConnectionString);
        return new SmallShop(database, data, await ServerProcess.StartAsync(data), token);
    }

    /// <summary>Another program on the same database, which has the server's key to the record.</summary>
    public ShopFixture OpenBeside()
    {
        var secret = File.ReadAllText(Path.Combine(Data.Folder, "record.key"));
        var beside = ShopFixture.Empty(_database);
        beside.Get<RecordSealer>().Use(RecordKey.TryParse(secret, out var key) ? key : throw new InvalidDataException("The server's file holds no key."));
        return beside;
    }

    /// <summary>Starts another server on the same data and address, as a service manager does after a crash.</summary>
    public async Task RestartAsync()
    {
        await Server.DisposeAsync();
        Api.Dispose();
        Server = await ServerProcess.StartAtAsync(Server.Address, Data);
        Api = new ApiClient(Server.Address, _token);
    }

    /// <summary>Stops the server and lets the program prove the record.</summary>
    public async Task<(int ExitCode, string Output)> VerifyAsync()
    {
        await Server.DisposeAsync();
        return await Data.RunAsync("verify");
    }

    public async ValueTask DisposeAsync()
    {
        Api.Dispose();
        await Server.DisposeAsync();
        Data.Dispose();
    }

    private static async Task<Guid> AccountAsync(ShopFixture shop, string signInName, string name, string role)
    {
        var account = new MakeAccount(Some.Id(), signInName, name, Password, [role], "light");
        return (await shop.Get<MakeAccountHandler>().HandleAsync(account, Actor.Program, default)).Done().Id;
    }
}

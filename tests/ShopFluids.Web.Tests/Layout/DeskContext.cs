using System.Globalization;
using System.Security.Claims;
using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor.Services;
using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Board.Work;

namespace ShopFluids.Web.Tests.Layout;

/// <summary>A desk in front of a small shop on SQLite: real queries and commands, a signed-in person, the clock at its start.</summary>
internal sealed class DeskContext : BunitContext
{
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-GB");

    public const string SignInName = "ostrey";

    private DeskContext(TestDatabase database, ShopFixture shop)
    {
        Database = database;
        Shop = shop;
    }

    public TestDatabase Database { get; }

    public ShopFixture Shop { get; }

    public static async Task<DeskContext> OpenAsync(bool isSupervisor = true, bool isSetUp = true)
    {
        CultureInfo.CurrentCulture = English;
        CultureInfo.CurrentUICulture = English;
        var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        var shop = isSetUp ? await ShopFixture.OpenAsync(database) : ShopFixture.Empty(database);
        var context = new DeskContext(database, shop);
        context.JSInterop.Mode = JSRuntimeMode.Loose;
        var person = context.AddAuthorization().SetAuthorized(SignInName);
        person.SetPolicies(isSupervisor ? [Policies.CanRead, Policies.CanOperate, Policies.CanSupervise] : [Policies.CanRead, Policies.CanOperate]);
        var id = Some.Supervisor.PersonId ?? Guid.Empty;
        var account = new MakeAccount(id, SignInName, "M. Ostrey", "pages of the desk", [isSupervisor ? Roles.Supervisor : Roles.Operator], "light");
        (await shop.Get<MakeAccountHandler>().HandleAsync(account, Actor.Program, default)).Done();
        person.SetClaims(
            new Claim(ClaimTypes.NameIdentifier, id.ToString()),
            new Claim(new ClaimsIdentityOptions().SecurityStampClaimType, await shop.Get<AccountsQuery>().StampAsync(id, default) ?? ""),
            new Claim("shopfluids:name", "M. Ostrey"));
        context.AddCore();
        return context;
    }

    /// <summary>The circuit is there: what a page draws ahead of it is drawn no more. Afterwards no service can be added.</summary>
    public void TakeOver() => SetRendererInfo(new RendererInfo("Server", isInteractive: true));

    /// <summary>Somebody who lets the person of this desk lose the role.</summary>
    public async Task OtherSupervisorAsync()
    {
        var account = new MakeAccount(Some.Id(), "second", "S. Econd", "pages of the desk", [Roles.Supervisor], "light");
        (await Shop.Get<MakeAccountHandler>().HandleAsync(account, Actor.Program, default)).Done();
    }

    protected override async ValueTask DisposeAsyncCore()
    {
        await base.DisposeAsyncCore();
        await Shop.DisposeAsync();
        await Database.DisposeAsync();
    }

    private void AddCore()
    {
        Services.AddMudServices();
        Services.AddSingleton<Handover>();
        Services.AddScoped<DeskSession>();
        Services.AddSingleton<SignInCheck>();
        Services.AddSingleton(Shop.Get<AccountsQuery>());
        Services.AddScoped<WorkActs>();
        Services.AddSingleton<TimeProvider>(Shop.Clock);
        Services.AddSingleton(Shop.Get<ShopDatabase>());
        Services.AddSingleton(Shop.Get<Core.Setup.SetupCache>());
        Services.AddSingleton(Shop.Get<Core.Time.ShopClock>());
        Services.AddSingleton(Shop.Get<ShopNews>());
        Services.AddSingleton(Shop.Get<Core.Care.EndTaskHandler>());
        Services.AddSingleton(Shop.Get<Core.Care.AssignTaskHandler>());
        Services.AddSingleton(Shop.Get<Core.Care.RedateTaskHandler>());
        Services.AddSingleton(Shop.Get<Core.Flags.CloseFlagHandler>());
        Services.AddSingleton(Shop.Get<Core.ShopFlags.AnswerShopFlagHandler>());
        Services.AddSingleton(Shop.Get<Core.Charges.RecordAdditionHandler>());
        Services.AddSingleton(Shop.Get<Core.Charges.AdjustmentQuery>());
        Services.AddSingleton<BoardQuery>();
        Services.AddSingleton<OpenWorkQuery>();
        Services.AddSingleton<SumpPageQuery>();
        Services.AddSingleton<Core.Bench.BenchList>();
        Services.AddSingleton<Core.Bench.Sumps.BenchSumpQuery>();
    }
}

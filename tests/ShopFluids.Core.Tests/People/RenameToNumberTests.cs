using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.People;

public sealed class RenameToNumberTests
{
    private const string Name = "Kim Arrow";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_WhoHasLeft_IsANumberEverywhereAndTheRecordStaysSound(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var kim = await AccountAsync(shop, "karrow", Name, Roles.Operator);
        await AccountAsync(shop, "boss", "Sal Ostrey", Roles.Supervisor);
        await shop.StoreAsync(Some.Reading(), new Actor(kim, Name));
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).Select(t => t.Id).FirstAsync(Stop));
        (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(task, kim), Some.Supervisor, Stop)).Done();
        (await shop.Get<MakeTokenHandler>().HandleAsync(new MakeToken(Some.Id(), "gauge", kim), Some.Supervisor, Stop)).Done();
        Assert.Contains(Name, (await ActorsAsync(shop)).Select(a => a.Name));

        var renamed = (await RenameAsync(shop, " KARROW ")).Done();

        Assert.Equal((kim, "Person 1"), (renamed.Id, renamed.Label));
        var person = await shop.ReadAsync(db => db.Users.AsNoTracking().SingleAsync(p => p.Id == kim, Stop));
        Assert.Equal(("Person 1", "person-1", null, null), (person.DisplayName, person.UserName, person.PasswordHash, person.PinHash));
        Assert.Equal(shop.Now, person.LeftAtUtc);
        Assert.Equal(0, await shop.ReadAsync(db => db.UserRoles.CountAsync(r => r.UserId == kim, Stop)));
        Assert.Equal(0, await shop.ReadAsync(db => db.ApiTokens.CountAsync(t => t.RevokedAtUtc == null, Stop)));
        Assert.Null(await shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == task).Select(t => t.AssignedToId).SingleAsync(Stop)));
        Assert.Equal(FieldProblem.UnknownChoice, (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(task, kim), Some.Supervisor, Stop)).Field().Problem);
        var entries = await shop.ReadAsync(db => db.RecordEntries.AsNoTracking().ToListAsync(Stop));
        Assert.DoesNotContain(entries, e => $"{e.ActorName} {e.Subject} {e.Changes}".Contains("arrow", StringComparison.OrdinalIgnoreCase));
        Assert.Equal("Person 1", Assert.Single(entries, e => e.Code == ActCodes.PersonRenamed).Subject);
        var actors = await ActorsAsync(shop);
        Assert.Contains(new TrailActor(kim.ToString("D"), "Person 1"), actors);
        Assert.DoesNotContain(Name, actors.Select(a => a.Name));
        Assert.Equal("Person 1", Assert.Single((await TrailAsync(shop, new(Who: kim.ToString("D")))).Entries, e => e.Code == ActCodes.ReadingStored).Actor);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OneselfLastSupervisorOrNobody_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var boss = await AccountAsync(shop, "boss", "Sal Ostrey", Roles.Supervisor);
        var kim = await AccountAsync(shop, "karrow", Name, Roles.Operator);

        Assert.Equal(FieldProblem.Missing, Assert.Single(Assert.IsType<FieldErrors>((await RenameAsync(shop, " ")).Refused()).Fields).Problem);
        Assert.Equal(new AccountNotFound("nobody"), (await RenameAsync(shop, "nobody")).Refused());
        Assert.Equal(new LastOfItsRole(Roles.Supervisor), (await RenameAsync(shop, "boss")).Refused());
        Assert.Equal(new OwnAccount(), (await RenameAsync(shop, "karrow", new Actor(kim, Name))).Refused());
        (await RenameAsync(shop, "karrow", new Actor(boss, "Sal Ostrey"))).Done();
        Assert.Equal(new AccountNotFound("person-2"), (await RenameAsync(shop, "person-2")).Refused());
        Assert.IsType<AccountNotFound>((await shop.Get<ChangeAccountHandler>().HandleAsync(new ResetPassword("person-2", "long enough to pass"), Some.Supervisor, Stop)).Refused());
        Assert.IsType<AccountNotFound>((await shop.Get<MakeTokenHandler>().HandleAsync(new MakeToken(Some.Id(), "gauge", kim), Some.Supervisor, Stop)).Refused());
    }

    [Theory, EachDatabase]
    public async Task NumberPeople_AccountsFromBeforeNumbers_GetThemOnceInOrder(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.ReadAsync(async db =>
        {
            db.Users.AddRange(Old("robin", 1), Old("alex", 2));
            return await db.SaveChangesAsync(Stop);
        });
        Assert.Empty((await shop.VerifyAsync()).Findings);

        Assert.Equal(2, await shop.Get<NumberPeopleHandler>().HandleAsync(Stop));
        Assert.Equal(0, await shop.Get<NumberPeopleHandler>().HandleAsync(Stop));

        Assert.Equal([("alex", "Person 2"), ("robin", "Person 1")], (await shop.Get<AccountsQuery>().AllAsync(Stop)).Select(a => (a.SignInName, a.Label)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // As entries stood before people had numbers: about whom was the sign-in name.
    [Theory, EachDatabase]
    public async Task Trail_EntriesFromBeforeNumbers_DoNotTellSignInNames(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await AccountAsync(shop, "karrow", Name, Roles.Operator);
        await RawSql.ExecuteAsync(database, """UPDATE "RecordEntries" SET "Subject" = 'karrow' WHERE "Code" = 'account.made'""");
        Assert.Equal("karrow", Assert.Single((await TrailAsync(shop, new(About: "arrow"))).Entries).Subject);
        await shop.ReadAsync(async db =>
        {
            db.Users.Add(Old("robin", 1));
            return await db.SaveChangesAsync(Stop);
        });

        await shop.Get<NumberPeopleHandler>().HandleAsync(Stop);

        Assert.Equal("", Assert.Single((await TrailAsync(shop, new(What: ActCodes.AccountMade))).Entries).Subject);
        Assert.Empty((await TrailAsync(shop, new(About: "arrow"))).Entries);
        await foreach (var entry in shop.Get<TrailQuery>().AllAsync(new(What: ActCodes.AccountMade), Stop))
        {
            Assert.Equal("", entry.Subject);
        }
    }

    [Theory]
    [EachDatabase("""UPDATE "AspNetUsers" SET "DisplayName" = 'Somebody else'""")]
    [EachDatabase("""UPDATE "AspNetUsers" SET "NameSalt" = NULL""")]
    [EachDatabase("""UPDATE "AspNetUsers" SET "NameSalt" = '00'""")]
    public async Task Verify_NameChangedPastTheProgram_NamesThePerson(TestDatabase database, string tampering)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var kim = await AccountAsync(shop, "karrow", Name, Roles.Operator);

        await RawSql.ExecuteAsync(database, tampering);

        Assert.Equal(new VerifyFinding(VerifyProblem.NameDiffers, $"Person {kim:D}"), Assert.Single((await shop.VerifyAsync()).Findings));
    }

    [Theory, EachDatabase]
    public async Task Verify_AccountMadePastTheProgram_NamesThePerson(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await AccountAsync(shop, "karrow", Name, Roles.Operator);
        var forged = Old("mallory", 1);
        await shop.ReadAsync(async db =>
        {
            db.Users.Add(forged);
            return await db.SaveChangesAsync(Stop);
        });

        Assert.Equal(new VerifyFinding(VerifyProblem.NameDiffers, $"Person {forged.Id:D}"), Assert.Single((await shop.VerifyAsync()).Findings));
    }

    private static Person Old(string signInName, byte order) => new() { Id = new Guid(1, 0, 0, [0, 0, 0, 0, 0, 0, 0, order]), UserName = signInName, NormalizedUserName = signInName.ToUpperInvariant(), DisplayName = signInName };

    private static async Task<Guid> AccountAsync(ShopFixture shop, string signInName, string name, string role) =>
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), signInName, name, "long enough to pass", [role], "light"), Some.Supervisor, Stop)).Done().Id;

    private static Task<Result<RenamedPerson>> RenameAsync(ShopFixture shop, string signInName, Actor? actor = null) =>
        shop.Get<RenameToNumberHandler>().HandleAsync(new RenameToNumber(signInName), actor ?? Some.Supervisor, Stop);

    private static Task<TrailPage> TrailAsync(ShopFixture shop, TrailFilter filter) => shop.Get<TrailQuery>().RunAsync(filter, Stop);

    private static async Task<IReadOnlyList<TrailActor>> ActorsAsync(ShopFixture shop) => (await TrailAsync(shop, new())).Actors;
}

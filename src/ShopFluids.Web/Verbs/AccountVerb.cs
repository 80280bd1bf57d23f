using System.Globalization;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Verbs;

/// <summary>Accounts from the server's own command line: whoever reaches it may do anything with them.</summary>
internal sealed class AccountVerb : Verb
{
    private const string DisplayName = "name";
    private const string RoleList = "roles";

    public override string Name => "account";

    public override string Summary => Texts.Verb_AccountSummary;

    public override IReadOnlyList<string> Usage =>
    [
        "account list",
        "account add SIGN-IN-NAME --name \"NAME\" --roles ROLE,ROLE",
        "account reset-password SIGN-IN-NAME",
        "account roles SIGN-IN-NAME --roles ROLE,ROLE",
        "account rename-to-number SIGN-IN-NAME",
    ];

    public override string Details => string.Format(CultureInfo.InvariantCulture, Texts.Verb_AccountDetails, string.Join(", ", Roles.All));

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(DisplayName), new VerbOption(RoleList)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        var act = call.Arguments.Count > 0 ? call.Arguments[0] : "";
        call.ExpectArguments(act == "list" ? 1 : 2);
        Func<ServiceProvider, Task<int>> run = act switch
        {
            "list" => services => ListAsync(call, services, cancellationToken),
            "add" => services => AddAsync(call, services, cancellationToken),
            "reset-password" => services => ResetAsync(call, services, cancellationToken),
            "rename-to-number" => services => RenameAsync(call, services, cancellationToken),
            "roles" => services => ChangeRolesAsync(call, services, cancellationToken),
            _ => throw new BadArgumentsException(),
        };
        await using var services = await VerbServices.OpenAsync(call, cancellationToken);
        return services is null ? ExitCodes.Failed : await run(services);
    }

    private static async Task<int> ListAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        foreach (var account in await services.GetRequiredService<AccountsQuery>().AllAsync(cancellationToken))
        {
            await call.Output.WriteLineAsync($"{account.SignInName}\t{account.DisplayName}\t{account.Label}\t{string.Join(',', account.Roles)}");
        }

        return ExitCodes.Done;
    }

    private static async Task<int> AddAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var (name, roles) = (call.Option(DisplayName), SplitRoles(call));
        var command = new MakeAccount(services.GetRequiredService<ShopClock>().NewId(), call.Arguments[1], name, await AskAsync(call), roles, "light");
        return await FinishAsync(call, await services.GetRequiredService<MakeAccountHandler>().HandleAsync(command, Actor.Program, cancellationToken));
    }

    private static async Task<int> ResetAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var command = new ResetPassword(call.Arguments[1], await AskAsync(call));
        return await FinishAsync(call, await services.GetRequiredService<ChangeAccountHandler>().HandleAsync(command, Actor.Program, cancellationToken));
    }

    private static async Task<int> ChangeRolesAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var command = new ChangeRoles(call.Arguments[1], SplitRoles(call));
        return await FinishAsync(call, await services.GetRequiredService<ChangeAccountHandler>().HandleAsync(command, Actor.Program, cancellationToken));
    }

    private static async Task<int> RenameAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var renamed = await services.GetRequiredService<RenameToNumberHandler>().HandleAsync(new RenameToNumber(call.Arguments[1]), Actor.Program, cancellationToken);
        if (renamed.IsRefused(out var refusal, out var person))
        {
            await call.Error.WriteLineAsync(AccountSentences.OneLine(refusal));
            return ExitCodes.Failed;
        }

        await call.Output.WriteLineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Account_Renamed, person.Label));
        return ExitCodes.Done;
    }

    private static string[] SplitRoles(VerbCall call) =>
        call.Option(RoleList).Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    // On standard error, so that a script that reads the answer does not read the question.
    private static async Task<string> AskAsync(VerbCall call)
    {
        await call.Error.WriteAsync(Texts.Verb_AskPassword);
        await call.Error.FlushAsync();
        return call.Surroundings.ReadSecret();
    }

    private static async Task<int> FinishAsync(VerbCall call, Result<MadeAccount> result)
    {
        if (result.Error is { } error)
        {
            await call.Error.WriteLineAsync(AccountSentences.OneLine(error));
            return ExitCodes.Failed;
        }

        await call.Output.WriteLineAsync(string.Format(CultureInfo.InvariantCulture, Texts.Verb_AccountDone, result.Value?.SignInName));
        return ExitCodes.Done;
    }
}

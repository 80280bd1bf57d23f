using System.Globalization;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Verbs;

/// <summary>Tokens of programs, each acting for a person.</summary>
internal sealed class TokenVerb : Verb
{
    private const string For = "for";

    public override string Name => "token";

    public override string Summary => Texts.Verb_TokenSummary;

    public override IReadOnlyList<string> Usage => ["token list", "token add NAME --for SIGN-IN-NAME", "token revoke NAME"];

    public override string Details => Texts.Verb_TokenDetails;

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(For)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        var act = call.Arguments.Count > 0 ? call.Arguments[0] : "";
        call.ExpectArguments(act == "list" ? 1 : 2);
        Func<ServiceProvider, Task<int>> run = act switch
        {
            "list" => services => ListAsync(call, services, cancellationToken),
            "add" => services => AddAsync(call, services, cancellationToken),
            "revoke" => services => RevokeAsync(call, services, cancellationToken),
            _ => throw new BadArgumentsException(),
        };
        await using var services = await VerbServices.OpenAsync(call, cancellationToken);
        return services is null ? ExitCodes.Failed : await run(services);
    }

    private static async Task<int> ListAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        foreach (var token in await services.GetRequiredService<AccountsQuery>().TokensAsync(cancellationToken))
        {
            var state = token.RevokedAtUtc is { } revoked ? Say(Texts.Verb_TokenRevokedAt, Instant(revoked)) : Texts.Verb_TokenWorks;
            await call.Output.WriteLineAsync($"{token.Name}\t{token.SignInName}\t{Instant(token.CreatedAtUtc)}\t{state}");
        }

        return ExitCodes.Done;
    }

    private static async Task<int> AddAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var holder = call.Option(For);
        var accounts = await services.GetRequiredService<AccountsQuery>().AllAsync(cancellationToken);
        if (accounts.FirstOrDefault(a => string.Equals(a.SignInName, holder, StringComparison.OrdinalIgnoreCase)) is not { } account)
        {
            await call.Error.WriteLineAsync(AccountSentences.OneLine(new AccountNotFound(holder)));
            return ExitCodes.Failed;
        }

        var command = new MakeToken(services.GetRequiredService<ShopClock>().NewId(), call.Arguments[1], account.Id);
        var result = await services.GetRequiredService<MakeTokenHandler>().HandleAsync(command, Actor.Program, cancellationToken);
        return await result.Match(
            async made =>
            {
                // The token alone, so that a script can keep it.
                await call.Output.WriteLineAsync(made.Token);
                return ExitCodes.Done;
            },
            error => RefuseAsync(call, error));
    }

    private static async Task<int> RevokeAsync(VerbCall call, ServiceProvider services, CancellationToken cancellationToken)
    {
        var result = await services.GetRequiredService<RevokeTokenHandler>().HandleAsync(new RevokeToken(call.Arguments[1]), Actor.Program, cancellationToken);
        return await result.Match(
            async _ =>
            {
                await call.Output.WriteLineAsync(Say(Texts.Verb_TokenRevoked, call.Arguments[1]));
                return ExitCodes.Done;
            },
            error => RefuseAsync(call, error));
    }

    private static async Task<int> RefuseAsync(VerbCall call, Core.Database.Error error)
    {
        await call.Error.WriteLineAsync(AccountSentences.OneLine(error));
        return ExitCodes.Failed;
    }

    private static string Instant(DateTime atUtc) => atUtc.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}

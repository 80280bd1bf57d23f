using Microsoft.Data.Sqlite;
using ShopFluids.Web.Verbs;
using Xunit;

namespace ShopFluids.Web.Tests.Verbs;

public sealed class AccountVerbTests : IDisposable
{
    private readonly CommandLineRun _run = new() { Typed = "long enough to pass" };

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        _run.Dispose();
    }

    [Fact]
    public async Task Add_ThenList_ShowsNameAndRoles()
    {
        Assert.Equal(ExitCodes.Done, await AddAsync("alex", "operator,supervisor"));

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "list"));
        Assert.Equal("alex\tSomebody\tPerson 1\toperator,supervisor", _run.Output.Trim());
    }

    [Fact]
    public async Task Add_ShortPassword_SaysHowLong()
    {
        _run.Typed = "short";

        Assert.Equal(ExitCodes.Failed, await AddAsync("alex", "operator"));

        Assert.Contains("10 to 200", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Add_NameTakenInOtherCase_Fails()
    {
        await AddAsync("alex", "operator");

        Assert.Equal(ExitCodes.Failed, await AddAsync("ALEX", "operator"));
    }

    [Fact]
    public async Task Add_UnknownRole_NamesTheRoles()
    {
        Assert.Equal(ExitCodes.Failed, await AddAsync("alex", "boss"));

        Assert.Contains("operator, supervisor, auditor, caretaker", _run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Roles_LastSupervisor_IsKept()
    {
        await AddAsync("alex", "supervisor");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("account", "roles", "alex", "--roles", "operator"));
        await AddAsync("robin", "supervisor");
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "roles", "alex", "--roles", "operator"));
    }

    [Fact]
    public async Task RenameToNumber_LeavesANumberAndNobodyToSignIn()
    {
        await AddAsync("alex", "supervisor");
        await AddAsync("robin", "operator");

        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("account", "rename-to-number", "alex"));
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("account", "rename-to-number", "robin"));
        Assert.Contains("Person 2", _run.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("account", "reset-password", "robin"));
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("account", "rename-to-number", "person-2"));

        await _run.RunAsync("account", "list");
        Assert.Equal(["alex\tSomebody\tPerson 1\tsupervisor", "person-2\tPerson 2\tPerson 2\t"], _run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.TrimEnd('\r')));
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("verify"));
    }

    [Fact]
    public async Task Add_NameLikeANumber_IsRefused()
    {
        Assert.Equal(ExitCodes.Failed, await AddAsync("Person-12", "operator"));

        Assert.Contains("person-7", _run.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Done, await AddAsync("person-12a", "operator"));
    }

    [Fact]
    public async Task ResetPassword_NobodyOfThatName_Fails()
    {
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("account", "reset-password", "nobody"));
    }

    [Fact]
    public async Task Token_AddListRevoke_PrintsItOnce()
    {
        await AddAsync("alex", "operator");

        Assert.Equal(ExitCodes.Done, await _run.RunAsync("token", "add", "gauge", "--for", "alex"));
        var token = _run.Output.Trim();
        Assert.StartsWith("sf_", token, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("token", "add", "gauge", "--for", "alex"));
        await _run.RunAsync("token", "list");
        Assert.Contains("gauge\talex\t", _run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain(token, _run.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCodes.Done, await _run.RunAsync("token", "revoke", "gauge"));
        Assert.Equal(ExitCodes.Failed, await _run.RunAsync("token", "revoke", "gauge"));
    }

    private Task<int> AddAsync(string name, string roles) => _run.RunAsync("account", "add", name, "--name", "Somebody", "--roles", roles);
}

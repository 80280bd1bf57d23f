using ShopFluids.Web.Verbs;

namespace ShopFluids.Web.Tests.Verbs;

/// <summary>Calls of the program in a folder of their own.</summary>
internal sealed class CommandLineRun : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("shopfluids-verbs-").FullName;

    public Dictionary<string, string> Environment { get; } = [];

    public string Typed { get; set; } = "";

    public string Output { get; private set; } = "";

    public string Error { get; private set; } = "";

    public string At(string file) => Path.Combine(Folder, file);

    public async Task<int> RunAsync(params string[] arguments)
    {
        await using var output = new StringWriter();
        await using var error = new StringWriter();
        var code = await CommandLine.RunAsync(arguments, new CommandSurroundings(Environment, Folder, output, error, () => Typed));
        Output = output.ToString();
        Error = error.ToString();
        return code;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}

using System.Collections;

namespace ShopFluids.Web.Verbs;

/// <summary>What the command line stands in; tests put their own in its place.</summary>
/// <param name="ReadSecret">Reads a password: one line of standard input, without showing it where a person types.</param>
public sealed record CommandSurroundings(IReadOnlyDictionary<string, string> Environment, string CurrentFolder, TextWriter Output, TextWriter Error, Func<string> ReadSecret)
{
    public static CommandSurroundings OfThisProcess() => new(
        System.Environment.GetEnvironmentVariables().Cast<DictionaryEntry>().ToDictionary(e => (string)e.Key, e => e.Value as string ?? ""),
        Directory.GetCurrentDirectory(),
        Console.Out,
        Console.Error,
        ReadFromConsole);

    private static string ReadFromConsole()
    {
        if (Console.IsInputRedirected)
        {
            return Console.In.ReadLine() ?? "";
        }

        var typed = new System.Text.StringBuilder();
        for (var key = Console.ReadKey(intercept: true); key.Key != ConsoleKey.Enter; key = Console.ReadKey(intercept: true))
        {
            if (key.Key == ConsoleKey.Backspace)
            {
                typed.Length = Math.Max(0, typed.Length - 1);
            }
            else if (!char.IsControl(key.KeyChar))
            {
                typed.Append(key.KeyChar);
            }
        }

        Console.Error.WriteLine();
        return typed.ToString();
    }
}

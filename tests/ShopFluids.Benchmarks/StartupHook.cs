using System.Globalization;
using System.IO.Pipes;

#pragma warning disable MA0047 // The runtime looks for this name and no other.

/// <summary>
/// Loaded into the measured server by DOTNET_STARTUP_HOOKS, which asks for this very name in no namespace: tells through a pipe how much managed
/// memory is in use after a full collection.
/// </summary>
internal static class StartupHook
{
    private const string PipeVariable = "BENCH_MEMORY_PIPE";

    public static void Initialize()
    {
        if (Environment.GetEnvironmentVariable(PipeVariable) is { } name)
        {
            new Thread(() => Answer(name)) { IsBackground = true }.Start();
        }
    }

    private static void Answer(string name)
    {
        while (true)
        {
            using var pipe = new NamedPipeServerStream(name, PipeDirection.Out);
            pipe.WaitForConnection();
            using var writer = new StreamWriter(pipe);
            writer.Write(GC.GetTotalMemory(forceFullCollection: true).ToString(CultureInfo.InvariantCulture));
        }
    }
}

using System.Diagnostics;
using Microsoft.Playwright;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>A browser with a folder of its own, which can be killed and opened again as a tablet is switched off and on.</summary>
internal sealed class OwnBrowser(Chromium chromium, Uri address) : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shopfluids-browser-").FullName;
    private IBrowserContext? _context;

    public IPage Page => _context?.Pages[0] ?? throw new InvalidOperationException("The browser is not open.");

    public async Task OpenAsync() => _context = await chromium.OpenOwnAsync(_folder, address);

    /// <summary>SIGKILL to all its processes: nothing is finished, nothing is flushed. Ends when none is left to write into the folder.</summary>
    public void Kill()
    {
        while (KillAny())
        {
            Thread.Sleep(20);
        }
    }

    public void Dispose()
    {
        Kill();
        Directory.Delete(_folder, recursive: true);
    }

    // Exit code 1 says that nothing matched.
    private bool KillAny()
    {
        using var kill = Process.Start("pkill", ["-KILL", "-f", _folder]);
        kill.WaitForExit();
        return kill.ExitCode == 0;
    }
}

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
        // One that was just being started is seen only by a second look; pkill answers 1 when it finds none.
        var start = new ProcessStartInfo("bash", ["-c", "for n in $(seq 500); do pkill -KILL -f \"$FOLDER\"; [ $? = 1 ] && exit 0; sleep 0.02; done; exit 1"]);
        start.Environment["FOLDER"] = _folder;
        using var kill = Process.Start(start) ?? throw new InvalidOperationException("bash does not start.");
        kill.WaitForExit();
        if (kill.ExitCode != 0)
        {
            throw new InvalidOperationException($"The browser of {_folder} does not die.");
        }
    }

    public void Dispose()
    {
        Kill();
        Directory.Delete(_folder, recursive: true);
    }
}

using Microsoft.EntityFrameworkCore;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>
/// Five hundred seeded walks of two tablets through typing, saving, leaving, closing, losing the connection, the server, the answer or the
/// sign-in. After every step each reading is in exactly one place: typed, waiting or stored; where an answer was lost it may wait and be stored. At the
/// end each is stored once.
/// </summary>
public sealed class RandomWalkTests(Chromium chromium)
{
    private const int WalksOfABlock = 100;
    private const int MostSteps = 7;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public async Task Readings_OnARandomWalk_AreInOnePlaceAtEveryStepAndStoredOnce(int block)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database);
        await using var first = await WalkTablet.OpenAsync(chromium, shop.Server.Address);
        await using var second = await WalkTablet.OpenAsync(chromium, shop.Server.Address);
        for (var number = 0; number < WalksOfABlock; number++)
        {
            await new Walk((block * WalksOfABlock) + number, shop, database, first, second).GoAsync();
        }
    }

    /// <summary>One walk.</summary>
    private sealed class Walk(int seed, SmallShop shop, TestDatabase database, params WalkTablet[] tablets)
    {
        private readonly Random _random = new(20261126 + seed);
        private readonly List<string> _said = [];
        private readonly HashSet<string> _notes = [];
        private bool _isDown;

        public async Task GoAsync()
        {
            try
            {
                for (var steps = _random.Next(3, MostSteps + 1); steps > 0; steps--)
                {
                    await StepAsync(tablets[_random.Next(tablets.Length)]);
                    await CheckAsync();
                }

                await FinishAsync();
            }
            catch (Exception fault)
            {
                throw new InvalidOperationException($"Walk {seed}: {string.Join(", ", _said)}.", fault);
            }
        }

        private Task StepAsync(WalkTablet tablet) => _random.Next(40) switch
        {
            < 14 => Say("type", tablet, TypeAsync),
            < 22 => Say("save", tablet, t => t.Typed is null ? TypeAsync(t) : t.SaveAsync()),
            < 24 => Say("leave", tablet, t => t.LeaveAsync()),
            < 26 => Say("reload", tablet, t => t.ReloadAsync()),
            < 27 => Say("close and open", tablet, t => t.CloseAndOpenAsync()),
            < 30 => Say("connection", tablet, t => t.SetOfflineAsync(!t.IsOffline && t.IsSignedIn)),
            < 35 => Say("mishap", tablet, SetMishap),
            < 37 => Say("wake", tablet, t => t.WakeAsync()),
            < 38 => Say("forget who is there", tablet, t => t.IsOffline || _isDown ? t.WakeAsync() : t.ForgetSignInAsync()),
            < 39 => Say("throw away", tablet, DiscardAsync),
            _ => Say("server", tablet, SwitchServerAsync),
        };

        private async Task Say(string step, WalkTablet tablet, Func<WalkTablet, Task> act)
        {
            _said.Add($"{Array.IndexOf(tablets, tablet) + 1} {step}{(_isDown ? " (server is down)" : "")}{(tablet.IsOffline ? " (offline)" : "")}");
            await act(tablet);
        }

        private async Task TypeAsync(WalkTablet tablet)
        {
            await tablet.TypeAsync($"walk-{seed}-{_notes.Count}.", (70 + _random.Next(20)) / 10m);
            _notes.Add(tablet.Typed ?? throw new InvalidOperationException("Nothing is typed."));
        }

        private Task SetMishap(WalkTablet tablet)
        {
            tablet.Next = (Mishap)_random.Next(1, 4);
            return Task.CompletedTask;
        }

        private async Task DiscardAsync(WalkTablet tablet)
        {
            if (tablet.Typed is { } typed)
            {
                await tablet.DiscardAsync();
                _notes.Remove(typed);
            }
        }

        private async Task SwitchServerAsync(WalkTablet tablet)
        {
            if (_isDown)
            {
                await shop.RestartAsync();
                _isDown = false;
            }
            else if (tablets.All(t => t.IsSignedIn))
            {
                shop.Server.Kill();
                _isDown = true;
            }
        }

        private async Task CheckAsync()
        {
            var stored = await StoredAsync();
            foreach (var tablet in tablets)
            {
                var kept = await tablet.KeptAsync();
                Assert.Equal(tablet.Typed is null ? [] : [tablet.Typed], kept.Drafts);
                Assert.Empty(kept.Drafts.Intersect(kept.Waiting));
                Assert.Empty(kept.Drafts.Intersect(stored));
                stored = [.. stored.Concat(kept.Drafts).Union(kept.Waiting)];
            }

            Assert.Equal(_notes.Order(), stored.Order());
        }

        private async Task FinishAsync()
        {
            if (_isDown)
            {
                await SwitchServerAsync(tablets[0]);
            }

            foreach (var tablet in tablets)
            {
                tablet.Next = Mishap.None;
                await tablet.SetOfflineAsync(false);
                if (!tablet.IsSignedIn)
                {
                    await tablet.SignInAsync();
                }

                if (tablet.Typed is not null)
                {
                    await tablet.SaveAsync();
                }

                await Waiting.UntilAsync(async () =>
                {
                    await tablet.WakeAsync();
                    return (await tablet.KeptAsync()).Waiting.Count == 0;
                });
            }

            Assert.Equal(_notes.Order(), (await StoredAsync()).Order());
        }

        private async Task<List<string>> StoredAsync()
        {
            await using var db = database.Open();
            return await db.Readings.Where(r => r.Note.StartsWith($"walk-{seed}-")).Select(r => r.Note).ToListAsync();
        }
    }
}

using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.Live;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Components.Layout;
using Xunit;

namespace ShopFluids.Web.Tests.Layout;

public sealed class LiveLookTests
{
    private readonly FakeTimeProvider _time = new(new DateTimeOffset(Some.Start));
    private readonly ShopNews _news = new();
    private int _looks;

    [Fact]
    public void Publish_ManyInOneSecond_LooksOnce()
    {
        using var live = Live(_ => true);

        for (var n = 0; n < 50; n++)
        {
            _news.Publish(Some.Id());
        }

        Assert.Equal(0, _looks);
        _time.Advance(LiveLook.Throttle);
        Assert.Equal(1, _looks);

        _news.Publish(Some.Id());
        _time.Advance(LiveLook.Throttle);
        Assert.Equal(2, _looks);
    }

    [Fact]
    public void Publish_SumpOfNoInterest_DoesNotLook()
    {
        using var live = Live(_ => false);

        _news.Publish(Some.Id());
        _time.Advance(LiveLook.Throttle);

        Assert.Equal(0, _looks);
    }

    [Fact]
    public void Advance_NoNews_LooksRegularlyBecauseOtherInstancesWriteToo()
    {
        using var live = Live(_ => true);

        _time.Advance(LiveLook.Regular * 3);

        Assert.Equal(3, _looks);
    }

    [Fact]
    public void Dispose_NewsAfterwards_IsNotHeard()
    {
        Live(_ => true).Dispose();

        _news.Publish(Some.Id());
        _time.Advance(LiveLook.Regular);

        Assert.Equal(0, _looks);
    }

    private LiveLook Live(Func<Guid, bool> isOfInterest) => new(_news, _time, isOfInterest, () => _looks++);
}

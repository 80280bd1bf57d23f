using Microsoft.Extensions.Time.Testing;
using ShopFluids.Web.Components.Shared.Loading;
using Xunit;

namespace ShopFluids.Web.Tests.Layout;

public sealed class HandoverTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly Handover _handover;

    public HandoverTests() => _handover = new(_time);

    [Fact]
    public void Take_WithItsTicket_GivesWhatWasLeftOnce()
    {
        var (first, second) = (_handover.Leave("first"), _handover.Leave("second"));

        Assert.Equal("first", _handover.Take<string>(first));
        Assert.Null(_handover.Take<string>(first));
        Assert.Equal("second", _handover.Take<string>(second));
    }

    [Fact]
    public void Take_WithoutATicketOrOfAnotherKind_GivesNothing()
    {
        var ticket = _handover.Leave("text");

        Assert.Null(_handover.Take<string>(null));
        Assert.Null(_handover.Take<string>(ticket[1..]));
        Assert.Null(_handover.Take<HandoverTests>(ticket));
    }

    [Fact]
    public void Take_TooLate_GivesNothing()
    {
        var (soon, late) = (_handover.Leave("soon"), _handover.Leave("late"));
        _time.Advance(Handover.Kept - TimeSpan.FromMilliseconds(1));
        Assert.Equal("soon", _handover.Take<string>(soon));
        _time.Advance(TimeSpan.FromMilliseconds(1));

        Assert.Null(_handover.Take<string>(late));
    }

    // Pages whose circuits never come must not fill the memory: the rest loads by itself, until those are forgotten.
    [Fact]
    public void Leave_MoreThanComeTogether_KeepsNoMoreThanItsMost()
    {
        var tickets = Enumerable.Range(0, Handover.Most + 1).Select(n => _handover.Leave($"page {n}")).ToList();
        Assert.Null(_handover.Take<string>(tickets[^1]));

        _time.Advance(Handover.Kept);
        Assert.Equal("next", _handover.Take<string>(_handover.Leave("next")));
    }
}

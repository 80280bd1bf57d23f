using ShopFluids.Web.Components.Shared.Loading;
using Xunit;

namespace ShopFluids.Web.Tests.Layout;

public sealed class HandoverTests
{
    [Fact]
    public void Take_WithItsTicket_GivesWhatWasLeftOnce()
    {
        using var handover = new Handover();
        var (first, second) = (handover.Leave("first"), handover.Leave("second"));

        Assert.Equal("first", handover.Take<string>(first));
        Assert.Null(handover.Take<string>(first));
        Assert.Equal("second", handover.Take<string>(second));
    }

    [Fact]
    public void Take_WithoutATicketOrOfAnotherKind_GivesNothing()
    {
        using var handover = new Handover();
        var ticket = handover.Leave("text");

        Assert.Null(handover.Take<string>(null));
        Assert.Null(handover.Take<string>(ticket[1..]));
        Assert.Null(handover.Take<HandoverTests>(ticket));
    }

    // Pages whose circuits never come must not fill the memory: the rest loads by itself.
    [Fact]
    public void Leave_MoreThanComeTogether_KeepsNoMoreThanItsMost()
    {
        using var handover = new Handover();

        var tickets = Enumerable.Range(0, 1000).Select(n => handover.Leave($"page {n}")).ToList();

        Assert.InRange(tickets.Count(t => handover.Take<string>(t) is not null), 1, 200);
    }
}

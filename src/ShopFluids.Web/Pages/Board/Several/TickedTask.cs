namespace ShopFluids.Web.Pages.Board.Several;

/// <summary>A piece of work that is ticked on the board.</summary>
/// <param name="Words">What is to be done.</param>
public sealed record TickedTask(Guid Id, string SumpTag, string Words);

/// <summary>Why one of several was not done.</summary>
public sealed record RefusedTask(TickedTask Task, string Why);

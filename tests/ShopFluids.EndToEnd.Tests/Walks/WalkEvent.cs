namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>What may happen to a tablet between typing and the server's "stored".</summary>
internal enum WalkEvent
{
    Type,
    Reload,
    Save,
    SaveTwice,
    SaveAndBreakOff,
    GoOffline,
    GoOnline,
    AnswersGetLost,
    ServerRefuses,
    ServerIsGone,
    SignInEnds,
    SignInAgain,
    CloseAndReopen,
    TakeOver,
    SecondTabletSaves,
    AwaitReplay,
}

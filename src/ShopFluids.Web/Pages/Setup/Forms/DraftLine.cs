namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>One field of a draft as it would be read aloud.</summary>
public sealed record DraftLine(string Label, string Text);

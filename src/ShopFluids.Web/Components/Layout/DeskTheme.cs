using MudBlazor;

namespace ShopFluids.Web.Components.Layout;

/// <summary>Shapes and type for library components; their colours come from the tokens, mapped in app.css, so that themes stay in one place.</summary>
internal static class DeskTheme
{
    private const string Family = "SF Text";

    public static MudTheme Theme { get; } = new()
    {
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "3px" },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = [Family, "Segoe UI", "system-ui", "sans-serif"], FontSize = "0.9375rem", LineHeight = "1.42" },
            H6 = new H6Typography { FontFamily = [Family, "Segoe UI", "system-ui", "sans-serif"], FontSize = "1.25rem", FontWeight = "760", LineHeight = "1.2" },
        },
        Shadows = new Shadow { Elevation = [.. Enumerable.Repeat("none", 26)] },
    };
}

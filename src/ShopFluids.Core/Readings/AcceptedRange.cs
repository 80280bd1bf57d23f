using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Readings;

/// <summary>The range that is named when a value cannot be read as a number at all.</summary>
/// <param name="Unit">Empty where the scale has a name of its own and no unit.</param>
public sealed record AcceptedRange(decimal Low, decimal High, string Unit)
{
    /// <summary>Of what a program says it measured; the parameter's first method and unit where it names none.</summary>
    /// <returns>Null when sump, parameter, method or unit are unknown: that is refused by itself.</returns>
    public static AcceptedRange? For(ShopSetup setup, string sumpTag, string parameterCode, string? methodCode, string? unit)
    {
        ArgumentNullException.ThrowIfNull(setup);
        if (setup.FindSump(sumpTag) is not { } sump || setup.FindParameter(parameterCode) is not { } parameter)
        {
            return null;
        }

        var methods = MeasuringMethod.For(parameter);
        var method = string.IsNullOrEmpty(methodCode) ? methods[0] : methods.FirstOrDefault(m => m.Code == methodCode);
        var known = string.IsNullOrEmpty(unit) ? method?.Units[0] : method?.Units.FirstOrDefault(u => u.Equals(unit, StringComparison.OrdinalIgnoreCase));
        return method is not null && known is not null && EntryPageQuery.AcceptedRange(method, known, parameter, sump) is { Low: { } low, High: { } high }
            ? new(low, high, parameter.Code == Rules.ParameterCodes.Ph ? "" : known)
            : null;
    }
}

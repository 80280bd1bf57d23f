using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>A refused value, at the control that it was typed into.</summary>
/// <param name="Control">The control's name and id.</param>
public sealed record EntryFault(string Control, FieldError Error)
{
    /// <summary>Finds the control that an error of the command belongs to.</summary>
    public static EntryFault Locate(FieldError error, EntryPage page, EntryForm form) => new(ControlOf(error, page, form), error);

    private static string ControlOf(FieldError error, EntryPage page, EntryForm form)
    {
        if (error.Field is FieldNames.TakenAt or FieldNames.Note)
        {
            return error.Field;
        }

        foreach (var field in InOrderOfFit(error, page, form))
        {
            if (error.Field == FieldNames.Of(field.Parameter))
            {
                return EntryForm.ValueName(field.Key);
            }

            if (error.Field == FieldNames.TemperatureOf(field.Parameter))
            {
                return EntryForm.TemperatureName(field.Key);
            }

            if (error.Field == FieldNames.UnitOf(field.Parameter) || error.Field == FieldNames.MethodOf(field.Parameter))
            {
                return EntryForm.WayName(field.Key);
            }

            if (error.Field == FieldNames.InstrumentOf(field.Parameter))
            {
                return field.Parameter == ParameterCodes.Ph ? EntryForm.PhMeterName : EntryForm.RefractometerName;
            }
        }

        return page.Due.Count > 0 ? EntryForm.ValueName(page.Due[0].Key) : EntryForm.NoteName;
    }

    // A parameter may have a box for each method: the one that was typed into, in the unit of the error, is meant.
    private static IEnumerable<EntryField> InOrderOfFit(FieldError error, EntryPage page, EntryForm form) => page.Fields
        .OrderByDescending(f => form.Of(f).Value.Length > 0)
        .ThenByDescending(f => f.Ways.Any(w => w.Unit == error.Unit));
}

using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop;

/// <summary>Pages that say why a sump or a reading cannot be shown.</summary>
internal static class ShopPages
{
    public static RazorComponentResult<StatePage> NotPossible(ShopVisit visit, string heading, Error error)
    {
        var (status, title, text) = error switch
        {
            SumpNotFound unknown => (StatusCodes.Status404NotFound, visit.Format.Say(Texts.Entry_SumpUnknown, unknown.Tag), Texts.Entry_SumpUnknownText),
            SumpRetired retired => (StatusCodes.Status409Conflict, visit.Format.Say(Texts.Entry_SumpRetired, retired.Tag), Texts.Entry_SumpRetiredText),
            NoOpenCharge empty => (StatusCodes.Status409Conflict, visit.Format.Say(Texts.Entry_SumpEmpty, empty.Tag), Texts.Entry_SumpEmptyText),
            ReadingNotFound => (StatusCodes.Status404NotFound, Texts.Saved_Unknown, Texts.Saved_UnknownText),
            _ => (StatusCodes.Status409Conflict, Texts.Entry_NotPossible, visit.Sentences.Error(error)),
        };
        return new RazorComponentResult<StatePage>(new { Visit = visit, Heading = heading, Title = title, Text = text, IsFault = true }) { StatusCode = status };
    }
}

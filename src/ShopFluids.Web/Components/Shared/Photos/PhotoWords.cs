using ShopFluids.Core.Photos;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Components.Shared.Photos;

internal static class PhotoWords
{
    /// <summary>What stands for the photo where it is not seen.</summary>
    public static string Alt(ShopFormat format, ListedPhoto photo, string sumpTag) => photo.By.Length > 0
        ? format.Say(Texts.Photo_Alt, sumpTag, format.DayAndTime(photo.TakenAtUtc), photo.By)
        : format.Say(Texts.Photo_AltUnknown, sumpTag, format.DayAndTime(photo.TakenAtUtc));
}

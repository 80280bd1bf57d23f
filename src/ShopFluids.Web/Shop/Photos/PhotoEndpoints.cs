using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Startup;

namespace ShopFluids.Web.Shop.Photos;

/// <summary>Photos of readings, to whoever is signed in.</summary>
internal static class PhotoEndpoints
{
    private const string Path = "/photos/{id:guid}";

    public static void MapPhotos(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync);
        app.MapGet(Path + "/file", SendAsync).WithMetadata(new NothingButAFile());
    }

    private static async Task<IResult> ShowAsync(HttpContext http, Guid id, PhotosQuery query)
    {
        var visit = await ShopVisit.OfAsync(http);
        return await query.ShownAsync(id, http.RequestAborted) is { } shown
            ? new RazorComponentResult<PhotoDocument>(new { Visit = visit, Shown = shown })
            : new RazorComponentResult<StatePage>(new { Visit = visit, Heading = Texts.Entry_Photo, Title = Texts.Photo_Unknown, Text = Texts.Photo_UnknownText, IsFault = true }) { StatusCode = StatusCodes.Status404NotFound };
    }

    // A browser keeps it for the person and asks each time whether it may still be shown: the answer to somebody who has left is the door.
    private static async Task<IResult> SendAsync(HttpContext http, Guid id, PhotosQuery query)
    {
        if (await query.HashAsync(id, http.RequestAborted) is not { } hash)
        {
            return Results.NotFound();
        }

        var tag = new EntityTagHeaderValue($"\"{hash}\"");
        http.Response.Headers.CacheControl = "private, no-cache";
        http.Response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
        if (http.Request.GetTypedHeaders().IfNoneMatch.Any(t => t.Compare(tag, useStrongComparison: false)))
        {
            http.Response.Headers.ETag = tag.ToString();
            return Results.StatusCode(StatusCodes.Status304NotModified);
        }

        return await query.FileAsync(id, http.RequestAborted) is { } file
            ? Results.Bytes(file.Bytes, TypeOf(file.Kind), entityTag: tag)
            : Results.NotFound();
    }

    private static string TypeOf(PictureKind kind) => kind switch
    {
        PictureKind.Jpeg => "image/jpeg",
        PictureKind.Png => "image/png",
        PictureKind.WebP => "image/webp",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no media type for this kind."),
    };
}

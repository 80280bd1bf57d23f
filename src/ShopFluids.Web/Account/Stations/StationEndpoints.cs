using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account.Stations;

/// <summary>Becoming a station, letting people in with a PIN, locking, and telling how the tablet fares. All open: who has no station's cookie gets nowhere.</summary>
internal static class StationEndpoints
{
    public const string Path = "/account/station";
    public const string EnrolPath = "/account/station/enrol";
    public const string LockPath = "/account/station/lock";
    public const string ContactPath = "/api/v1/stations/contact";
    public const string CodeField = "code";
    public const string EndedField = "ended";

    public static void MapStations(this IEndpointRouteBuilder app)
    {
        app.MapGet(Path, ShowAsync).AllowAnonymous();
        app.MapPost(Path, LetInAsync).AllowAnonymous();
        app.MapGet(EnrolPath, OfferAsync).AllowAnonymous();
        app.MapPost(EnrolPath, EnrolAsync).AllowAnonymous();
        app.MapPost(LockPath, LockAsync).AllowAnonymous();
        app.MapGet(LockPath, () => Results.LocalRedirect("~" + Path)).AllowAnonymous();
        app.MapPost(ContactPath, ContactAsync).AllowAnonymous().ExcludeFromDescription();
    }

    private static async Task<IResult> ShowAsync(HttpContext http, StationsQuery query)
    {
        var returnPath = SignInEndpoints.ReturnPath(http, http.Request.Query[SignInEndpoints.ReturnField]);
        if (await http.StationAsync() is not { } station)
        {
            return NoStation(http, returnPath);
        }

        var people = await query.PeopleAsync(http.RequestAborted);
        return Page(new StationModel(station, people, Find(people, http.Request.Query[StationModel.PersonField]), returnPath, null));
    }

    private static async Task<IResult> LetInAsync(HttpContext http, StationsQuery query, PinDoor door)
    {
        var post = await FormPost.ReadAsync(http);
        var returnPath = SignInEndpoints.ReturnPath(http, post.Text(SignInEndpoints.ReturnField));
        if (await http.StationAsync() is not { } station)
        {
            return NoStation(http, returnPath);
        }

        var people = await query.PeopleAsync(http.RequestAborted);
        var person = Find(people, post.Text(StationModel.PersonField));
        if (person is null || !post.IsOurs)
        {
            return Page(new StationModel(station, people, person, returnPath, post.IsOurs ? null : Texts.Account_FormTooOld));
        }

        var answer = await door.TryAsync(http, station, person.Id, post.Secret(StationModel.PinField));
        return answer.User is not null ? Results.LocalRedirect("~" + returnPath) : Page(new StationModel(station, people, person, returnPath, answer.Refusal));
    }

    private static async Task<IResult> OfferAsync(HttpContext http, StationsQuery query, ShopClock clock)
    {
        var code = http.Request.Query[CodeField].FirstOrDefault() ?? "";
        var name = code.Length == 0 ? null : await query.OfCodeAsync(code, clock.UtcNow, http.RequestAborted);
        return EnrolPageOf(new EnrolModel(code, name, code.Length > 0 && name is null ? Texts.Station_CodeUnknown : null));
    }

    // Not by opening the link: whatever looks at links beforehand would use the code up.
    private static async Task<IResult> EnrolAsync(HttpContext http, EnrolStationHandler handler)
    {
        var post = await FormPost.ReadAsync(http);
        var code = post.Text(CodeField);
        if (!post.IsOurs)
        {
            return EnrolPageOf(new EnrolModel(code, null, Texts.Account_FormTooOld));
        }

        var result = await handler.HandleAsync(new EnrolStation(code), CancellationToken.None);
        if (result.Value is not { } enrolled)
        {
            return EnrolPageOf(new EnrolModel(code, null, Texts.Station_CodeUnknown));
        }

        // Whoever brought the code here must not stay signed in on a tablet for everybody.
        await EndSessionsAsync(http);
        StationCookie.Write(http, enrolled.Secret);
        return Results.LocalRedirect("~" + Path);
    }

    // Without the form's token: a page kept on the tablet has none that still holds, and another site sends no cookie along.
    private static async Task<IResult> LockAsync(HttpContext http, EnrolStationHandler handler)
    {
        if (await http.StationAsync() is { } station)
        {
            await handler.HandleAsync(new LockStation(station.Id), CancellationToken.None);
            await EndSessionsAsync(http);
        }

        var form = http.Request.HasFormContentType ? await FormPost.ReadAsync(http) : null;
        var returnPath = SignInEndpoints.ReturnPath(http, form?.Text(SignInEndpoints.ReturnField));
        return FormPost.IsOfScript(http.Request) ? Results.NoContent() : Results.LocalRedirect("~" + Path + QueryString.Create(SignInEndpoints.ReturnField, returnPath));
    }

    private static async Task<IResult> ContactAsync(HttpContext http, NoteContactHandler handler)
    {
        // Once the header is there, a page of another site cannot have sent it.
        if (!FormPost.IsOfScript(http.Request) || await http.StationAsync() is not { } station)
        {
            return Results.Problem(statusCode: StatusCodes.Status401Unauthorized, title: Texts.Api_NotSignedIn);
        }

        if (await ContactOfAsync(http.Request) is not { } told)
        {
            return Results.Problem(statusCode: StatusCodes.Status400BadRequest, title: Texts.Station_ContactUnreadable);
        }

        var age = told.OldestAgeMs is { } ms ? TimeSpan.FromMilliseconds(ms) : (TimeSpan?)null;
        await handler.HandleAsync(new NoteContact(station.Id, told.Unsent, age, DateTimeOffset.FromUnixTimeMilliseconds(told.NowMs).UtcDateTime), CancellationToken.None);
        return Results.NoContent();
    }

    private static async Task<ContactJson?> ContactOfAsync(HttpRequest request)
    {
        const long LatestMs = 253_402_300_799_999;
        const long LongestMs = 1_000_000_000_000;
        if (!request.HasJsonContentType() || request.ContentLength is null or > 1024)
        {
            return null;
        }

        try
        {
            var told = await JsonSerializer.DeserializeAsync(request.Body, StationJson.Default.ContactJson, request.HttpContext.RequestAborted);
            return told is { NowMs: >= 0 and <= LatestMs } and ({ OldestAgeMs: null } or { OldestAgeMs: >= -LongestMs and <= LongestMs }) ? told : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IResult NoStation(HttpContext http, string returnPath)
    {
        var wasOne = StationCookie.SaysItIsAStation(http.Request);
        StationCookie.Drop(http);
        var query = QueryString.Create(SignInEndpoints.ReturnField, returnPath);
        return Results.LocalRedirect("~" + SignInEndpoints.Path + (wasOne ? query.Add(EndedField, "1") : query));
    }

    private static async Task EndSessionsAsync(HttpContext http)
    {
        await http.SignOutAsync(PinSession.Scheme);
        await http.SignOutAsync(IdentityConstants.ApplicationScheme);
    }

    internal static StationPerson? Find(IReadOnlyList<StationPerson> people, string? id) =>
        Guid.TryParse(id, out var asked) ? people.FirstOrDefault(p => p.Id == asked) : null;

    private static RazorComponentResult<StationPage> Page(StationModel model) => new(new { Model = model })
    {
        StatusCode = model.Fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };

    private static RazorComponentResult<EnrolPage> EnrolPageOf(EnrolModel model) => new(new { Model = model })
    {
        StatusCode = model.Fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };
}

/// <param name="Unsent">Readings saved on the tablet and not sent yet.</param>
/// <param name="OldestAgeMs">How long ago the oldest of them was saved, by the tablet's clock.</param>
/// <param name="NowMs">What the tablet's clock shows, ms since 1970 UTC.</param>
internal sealed record ContactJson(int Unsent, long? OldestAgeMs, long NowMs);

[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(ContactJson))]
internal sealed partial class StationJson : JsonSerializerContext;

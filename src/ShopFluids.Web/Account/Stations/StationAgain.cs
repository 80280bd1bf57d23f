using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account.Stations;

/// <summary>
/// At a station, a form that came after the tablet was locked waits for the PIN of the person it belongs to: what one typed is not
/// another's. Somebody else goes to the tiles, and what was typed stays in the tablet's keeping for the first.
/// </summary>
internal sealed class StationAgain(StationsQuery query, PinDoor door)
{
    /// <returns>Who typed a PIN that is right; null when the page that asks for it was written.</returns>
    public async Task<ClaimsPrincipal?> AskAsync(HttpContext http, StationHere station, FormPost post)
    {
        var people = await query.PeopleAsync(http.RequestAborted);
        var last = StationCookie.LastPerson(http.Request)?.ToString("D");
        var person = StationEndpoints.Find(people, last) ?? StationEndpoints.Find(people, post.Text(StationModel.PersonField));
        string? fault = null;
        if (person is not null && post.Form.ContainsKey(StationModel.PinField))
        {
            if (post.IsOurs)
            {
                var answer = await door.TryAsync(http, station, person.Id, post.Secret(StationModel.PinField));
                if (answer.User is { } user)
                {
                    return user;
                }

                fault = answer.Refusal;
            }
            else
            {
                fault = Texts.Account_FormTooOld;
            }
        }

        var carried = post.Carried(StationModel.PersonField, StationModel.PinField, FormPost.TokenField, SignInEndpoints.ReturnField);
        var model = new StationModel(station, people, person, "/", fault) { Carried = carried };
        await new RazorComponentResult<StationPage>(new { Model = model }) { StatusCode = StatusCodes.Status401Unauthorized }.ExecuteAsync(http);
        return null;
    }
}

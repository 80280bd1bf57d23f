using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Api.Json;

/// <summary>The body of a request as one JSON object.</summary>
internal static class JsonBody
{
    public const int MostBytes = 64 * 1024;

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 16 };

    /// <returns>The document, or the answer that refuses the body.</returns>
    public static async Task<(JsonDocument? Document, IResult? Refusal)> ReadAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        if (!request.HasJsonContentType())
        {
            return (null, Problems.Make(StatusCodes.Status415UnsupportedMediaType, "notJson", Texts.Api_NotJsonType));
        }

        try
        {
            // Bounded here too: not every server in front of this keeps to the limit of the endpoint.
            using var buffer = new MemoryStream();
            var chunk = new byte[4096];
            int count;
            while ((count = await request.Body.ReadAsync(chunk, cancellationToken)) > 0)
            {
                if (buffer.Length + count > MostBytes)
                {
                    return (null, TooLarge());
                }

                buffer.Write(chunk, 0, count);
            }

            var document = JsonDocument.Parse(buffer.ToArray(), Options);
            if (document.RootElement.ValueKind == JsonValueKind.Object)
            {
                return (document, null);
            }

            document.Dispose();
            return (null, Problems.Make(StatusCodes.Status400BadRequest, "notAnObject", Texts.Api_NotAnObject));
        }
        catch (JsonException broken)
        {
            return (null, Problems.Make(StatusCodes.Status400BadRequest, "notJson", string.Format(System.Globalization.CultureInfo.InvariantCulture, Texts.Api_NotJson, (broken.LineNumber ?? 0) + 1)));
        }
        catch (BadHttpRequestException bad) when (bad.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return (null, TooLarge());
        }
    }

    /// <summary>Reads the body and answers by its fields.</summary>
    public static async Task<IResult> AnswerAsync(HttpContext http, ApiSentences sentences, Func<JsonElement, JsonFields, Sentences, Task<IResult>> answer)
    {
        var say = await sentences.CurrentAsync(http.RequestAborted);
        var (document, refusal) = await ReadAsync(http.Request, http.RequestAborted);
        using (document)
        {
            return document is null ? refusal ?? Results.BadRequest() : await answer(document.RootElement, new JsonFields(say), say);
        }
    }

    private static JsonHttpResult<ApiProblem> TooLarge() => Problems.Make(StatusCodes.Status413PayloadTooLarge, "tooLarge", Texts.Api_TooLarge);
}

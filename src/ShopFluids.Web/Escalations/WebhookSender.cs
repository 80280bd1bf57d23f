using System.Globalization;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ShopFluids.Core.Escalations;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Escalations;

/// <summary>
/// Posts a message as JSON. The receiver proves that it came from here, and is not an old one sent again, by HMAC-SHA256 over the time and the
/// body under the secret that both know.
/// </summary>
internal sealed class WebhookSender(IHttpClientFactory clients, WebhookSettings settings, TimeProvider time) : IEscalationSender
{
    public const string ClientName = "escalation-webhook";
    public const string IdHeader = "X-ShopFluids-Message";
    public const string TimeHeader = "X-ShopFluids-Timestamp";
    public const string SignatureHeader = "X-ShopFluids-Signature";

    public EscalationChannel Channel => EscalationChannel.Webhook;

    public async Task<string?> SendAsync(EscalationMessage message, CancellationToken cancellationToken)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(WebhookBody.Of(message), WebhookJson.Default.WebhookBody);
        var seconds = time.GetUtcNow().ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
        using var request = new HttpRequestMessage(HttpMethod.Post, settings.Url) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json", "utf-8");
        request.Headers.Add(IdHeader, message.Id.ToString("D"));
        request.Headers.Add(TimeHeader, seconds);
        request.Headers.Add(SignatureHeader, Sign(settings.Secret, seconds, body));
        using var client = clients.CreateClient(ClientName);
        using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancellationToken);
        return answer.IsSuccessStatusCode ? null : string.Create(CultureInfo.InvariantCulture, $"HTTP {(int)answer.StatusCode}");
    }

    /// <summary><c>sha256=</c> and, in hex, HMAC-SHA256 of the seconds, a point and the body.</summary>
    public static string Sign(string secret, string seconds, ReadOnlySpan<byte> body)
    {
        using var mac = IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, Encoding.UTF8.GetBytes(secret));
        mac.AppendData(Encoding.UTF8.GetBytes($"{seconds}."));
        mac.AppendData(body);
        return $"sha256={Convert.ToHexStringLower(mac.GetHashAndReset())}";
    }
}

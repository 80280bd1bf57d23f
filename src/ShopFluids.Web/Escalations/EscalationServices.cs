using ShopFluids.Core.Escalations;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Escalations;

internal static class EscalationServices
{
    /// <summary>The ways out that the settings open; without any, nothing is written down to be sent and nothing runs.</summary>
    public static IServiceCollection AddEscalations(this IServiceCollection services, ShopSettings settings)
    {
        var open = new List<EscalationChannel>();
        if (settings.Webhook is { } webhook)
        {
            open.Add(EscalationChannel.Webhook);
            services.AddSingleton(webhook).AddSingleton<IEscalationSender, WebhookSender>();

            // Where it was sent is where it goes: a redirect would carry it elsewhere. The address may hold a token, so it is not logged.
            services.AddHttpClient(WebhookSender.ClientName)
                .ConfigurePrimaryHttpMessageHandler(() => new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false })
                .RemoveAllLoggers();
        }

        if (settings.Mail is { } mail)
        {
            open.Add(EscalationChannel.Mail);
            services.AddSingleton(mail).AddSingleton<IEscalationSender, MailSender>();
        }

        return open.Count == 0 ? services : services
            .AddSingleton(new EscalationChannels(open))
            .AddSingleton<EscalationDelivery>()
            .AddHostedService<EscalationTimer>();
    }
}

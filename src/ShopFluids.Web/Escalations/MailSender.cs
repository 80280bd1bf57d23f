using System.Globalization;
using System.Net;
using System.Net.Mail;
using System.Text;
using ShopFluids.Core.Escalations;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Escalations;

/// <summary>Hands a message to a mail relay as plain text.</summary>
internal sealed class MailSender(MailSettings settings) : IEscalationSender
{
    public EscalationChannel Channel => EscalationChannel.Mail;

    public async Task<string?> SendAsync(EscalationMessage message, CancellationToken cancellationToken)
    {
        using var mail = Letter(message, settings);
        using var relay = new SmtpClient(settings.Host, settings.Port) { EnableSsl = settings.UsesTls };
        if (settings.User is { } user)
        {
            relay.Credentials = new NetworkCredential(user, settings.Password);
        }

        await relay.SendMailAsync(mail, cancellationToken);
        return null;
    }

    internal static MailMessage Letter(EscalationMessage message, MailSettings settings)
    {
        var from = new MailAddress(settings.From);
        var flags = message.Content.Flags;
        var subjects = flags.Select(f => f.Subject).Distinct(StringComparer.Ordinal).ToList();
        var mail = new MailMessage
        {
            From = from,
            Subject = OneLine(Say(subjects.Count == 1 ? Texts.Mail_SubjectOne : Texts.Mail_Subject, message.Content.Shop, subjects[0], subjects.Count - 1)),
            SubjectEncoding = Encoding.UTF8,
            Body = Body(message.Content),
            BodyEncoding = Encoding.UTF8,
            IsBodyHtml = false,
        };
        foreach (var to in settings.To)
        {
            mail.To.Add(new MailAddress(to));
        }

        // The same at every try: a mailbox shows it once.
        mail.Headers.Add("Message-ID", $"<{message.Id:D}@{from.Host}>");
        mail.Headers.Add("Auto-Submitted", "auto-generated");
        return mail;
    }

    private static string Body(EscalationContent content)
    {
        var text = new StringBuilder().AppendLine(Texts.Mail_Lead).AppendLine();
        foreach (var flag in content.Flags)
        {
            text.AppendLine(Say(Texts.Mail_Flag, flag.Subject, flag.Text)).AppendLine(Say(Texts.Mail_Since, flag.Since)).AppendLine();
        }

        return text.AppendLine(Texts.Mail_Foot).ToString();
    }

    // The shop's own name stands in it; a header has one line.
    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}

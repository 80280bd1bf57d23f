using System.Globalization;
using System.Net;
using System.Net.Mail;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Settings;

/// <summary>Reads where word of flags that nobody answered goes. Nothing is set by default, and then nothing leaves the machine.</summary>
internal static class EscalationSettingsReader
{
    /// <summary>What HMAC-SHA256 gains nothing by going over, and what a person can no longer guess: half of it.</summary>
    private const int LeastSecret = 16;
    private const int MostPort = 65535;

    /// <returns>Null where no webhook is set.</returns>
    public static WebhookSettings? ReadWebhook(SettingSources sources, IReadOnlyDictionary<string, EffectiveSetting> effective)
    {
        var (url, secret) = (effective[SettingDefinitions.WebhookUrl.Name], effective[SettingDefinitions.WebhookSecret.Name]);
        if (url.Value.Length == 0)
        {
            if (secret.Value.Length > 0)
            {
                sources.Fault(secret.Name, Texts.Setting_NotAlone, url.Name);
            }

            return null;
        }

        if (secret.Value.Length < LeastSecret)
        {
            sources.Fault(secret.Name, Texts.Setting_SecretShort, LeastSecret);
        }

        // The address may hold a token: it is not repeated.
        if (!Uri.TryCreate(url.Value.Trim(), UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https") || address.UserInfo.Length > 0)
        {
            sources.Fault(url.Name, Texts.Setting_NotAWebhook);
            return null;
        }

        return new(address, secret.Value);
    }

    /// <returns>Null where no mail is set.</returns>
    public static MailSettings? ReadMail(SettingSources sources, IReadOnlyDictionary<string, EffectiveSetting> effective, Func<EffectiveSetting, bool> readFlag)
    {
        var host = effective[SettingDefinitions.MailHost.Name];
        var (from, to) = (effective[SettingDefinitions.MailFrom.Name], effective[SettingDefinitions.MailTo.Name]);
        var (user, password) = (effective[SettingDefinitions.MailUser.Name], effective[SettingDefinitions.MailPassword.Name]);
        var usesTls = readFlag(effective[SettingDefinitions.MailTls.Name]);
        var port = ReadPort(sources, effective[SettingDefinitions.MailPort.Name]);
        if (host.Value.Length == 0)
        {
            foreach (var setting in new[] { from, to, user, password }.Where(s => s.Value.Length > 0))
            {
                sources.Fault(setting.Name, Texts.Setting_NotAlone, host.Name);
            }

            return null;
        }

        var sender = ReadAddresses(sources, from);
        var receivers = ReadAddresses(sources, to);
        if (sender.Count > 1)
        {
            sources.Fault(from.Name, Texts.Setting_OneAddress);
        }

        if (user.Value.Length == 0 != (password.Value.Length == 0))
        {
            sources.Fault(user.Value.Length == 0 ? password.Name : user.Name, Texts.Setting_NotAlone, user.Value.Length == 0 ? user.Name : password.Name);
        }
        else if (user.Value.Length > 0 && !usesTls && !IsThisMachine(host.Value))
        {
            sources.Fault(effective[SettingDefinitions.MailTls.Name].Name, Texts.Setting_PasswordInClear);
        }

        return sender.Count == 1 && receivers.Count > 0
            ? new(host.Value.Trim(), port, sender[0], receivers, user.Value.Length > 0 ? user.Value : null, password.Value.Length > 0 ? password.Value : null, usesTls)
            : null;
    }

    private static int ReadPort(SettingSources sources, EffectiveSetting setting)
    {
        if (int.TryParse(setting.Value.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var port) && port is >= 1 and <= MostPort)
        {
            return port;
        }

        sources.Fault(setting.Name, Texts.Setting_NotAPort, setting.Value, MostPort);
        return 0;
    }

    private static List<string> ReadAddresses(SettingSources sources, EffectiveSetting setting)
    {
        var addresses = setting.Value.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).ToList();
        if (addresses.Count == 0)
        {
            sources.Fault(setting.Name, Texts.Setting_AddressMissing);
        }

        foreach (var address in addresses.Where(a => !MailAddress.TryCreate(a, out _)))
        {
            sources.Fault(setting.Name, Texts.Setting_NotAnAddress, address);
        }

        return addresses;
    }

    private static bool IsThisMachine(string host) =>
        host.Trim().Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host.Trim(), out var address) && IPAddress.IsLoopback(address));
}

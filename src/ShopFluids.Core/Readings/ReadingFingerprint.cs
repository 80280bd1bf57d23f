using System.Security.Cryptography;
using System.Text;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;

namespace ShopFluids.Core.Readings;

/// <summary>Tells whether two sendings of one id say the same. 8.9 and 8.90 say the same; a photo is told by its hash.</summary>
internal static class ReadingFingerprint
{
    public static string Of(RecordReading command)
    {
        var content = JsonColumn.Write(new
        {
            Sump = Tags.Key(command.SumpTag),
            TakenAt = command.TakenAtUtc,
            Note = command.Note,
            Measurements = command.Measurements
                .Select(m => new { m.Parameter, Method = m.Method ?? "", m.Value, Unit = m.Unit ?? "", m.TemperatureCelsius, Instrument = Tags.Key(m.Instrument ?? "") })
                .OrderBy(m => m.Parameter, StringComparer.Ordinal)
                .ThenBy(m => m.Method, StringComparer.Ordinal),
            command.SupersedesId,
            command.CorrectionReason,
        });
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(content + command.Photo?.Sha256)));
    }
}

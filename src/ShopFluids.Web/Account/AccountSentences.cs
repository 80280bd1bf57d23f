using System.Globalization;
using ShopFluids.Core.Database;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Account;

/// <summary>What is wrong with a field of the account forms, in words.</summary>
internal static class AccountSentences
{
    /// <summary>By field; the first fault of a field is shown.</summary>
    public static IReadOnlyDictionary<string, string> Of(Error error) => error switch
    {
        FieldErrors fields => fields.Fields.GroupBy(f => f.Field).ToDictionary(g => g.Key, g => Of(g.First())),
        AccountNotFound missing => new Dictionary<string, string> { [""] = Say(Texts.Account_NotFound, missing.Name) },
        LastOfItsRole last => new Dictionary<string, string> { [""] = Say(Texts.Account_LastOfItsRole, last.Role) },
        TokenNotFound missing => new Dictionary<string, string> { [""] = Say(Texts.Account_TokenNotFound, missing.Name) },
        NotAPin => new Dictionary<string, string> { ["pin"] = Texts.Station_NotAPin },
        PinTooEasy => new Dictionary<string, string> { ["pin"] = Texts.Station_PinTooEasy },
        StationNotFound => new Dictionary<string, string> { [""] = Texts.Station_NotFound },
        OwnAccount => new Dictionary<string, string> { [""] = Texts.Account_OwnAccount },
        ShopIsOpen => new Dictionary<string, string> { [""] = Texts.Account_ShopIsOpen },
        _ => throw new InvalidOperationException($"{error.GetType().Name} has no sentence."),
    };

    /// <summary>On one line, for the command line.</summary>
    public static string OneLine(Error error) => string.Join(' ', Of(error).Select(e => e.Key.Length == 0 ? e.Value : $"{e.Key}: {e.Value}"));

    private static string Of(FieldError error) => (error.Field, error.Problem) switch
    {
        ("currentPassword" or SetPinHandler.CurrentPasswordField, FieldProblem.UnknownChoice) => Texts.Account_WrongPassword,
        ("password", FieldProblem.NotUnique) => Texts.Account_PasswordIsName,
        ("password", FieldProblem.OutOfRange) => Say(Texts.Account_PasswordLength, error.Low, error.High),
        ("signInName", FieldProblem.NotUnique) => Texts.Account_NameTaken,
        ("signInName", FieldProblem.UnknownChoice) => Texts.Account_NameIsNumber,
        ("leaver", FieldProblem.NotUnique) => Say(Texts.Account_NumberTaken, error.Detail),
        ("signInName", FieldProblem.NotATag) => Texts.Account_NameSigns,
        ("name", FieldProblem.NotUnique) => Texts.Account_TokenNameTaken,
        ("roles", FieldProblem.UnknownChoice) => Say(Texts.Account_UnknownRole, error.Detail, string.Join(", ", Roles.All)),
        (_, FieldProblem.Missing) => Texts.Account_Missing,
        (_, FieldProblem.TooLong) => Say(Texts.Account_TooLong, error.High),
        (_, FieldProblem.NotText) => Texts.Account_NotText,
        (_, FieldProblem.UnknownChoice) => Texts.Account_UnknownChoice,
        _ => throw new InvalidOperationException($"{error.Problem} at {error.Field} has no sentence."),
    };

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.CurrentCulture, pattern, values);
}

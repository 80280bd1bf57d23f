using ShopFluids.Core.Database;
using Xunit.Sdk;

namespace ShopFluids.Testing.Shop;

/// <summary>What a command answered, when the test knows which it must be.</summary>
public static class Results
{
    public static T Done<T>(this Result<T> result)
        where T : class =>
        result.Value ?? throw new XunitException($"Expected success, but was refused: {Describe(result.Error)}");

    public static Error Refused<T>(this Result<T> result)
        where T : class =>
        result.Error ?? throw new XunitException($"Expected a refusal, but was done: {result.Value}");

    /// <summary>The refused fields; fails when it was done or refused as a whole.</summary>
    public static IReadOnlyList<FieldError> Fields<T>(this Result<T> result)
        where T : class =>
        result.Refused() is FieldErrors errors ? errors.Fields : throw new XunitException($"Expected refused fields, but was: {result.Error}");

    /// <summary>The only refused field.</summary>
    public static FieldError Field<T>(this Result<T> result)
        where T : class =>
        result.Fields() is [var only] ? only : throw new XunitException($"Expected one refused field, but were: {Describe(result.Error)}");

    private static string Describe(Error? error) => error is FieldErrors fields ? string.Join("; ", fields.Fields) : $"{error}";
}

using System.Collections.Concurrent;
using System.Text.Json;

namespace ShopFluids.Web.Api.Json;

/// <summary>Enum members as they stand in JSON: inRange, changeFilter.</summary>
internal static class Codes
{
    public static string Of<T>(T member)
        where T : struct, Enum =>
        Cache<T>.Names.GetOrAdd(member, static m => JsonNamingPolicy.CamelCase.ConvertName(m.ToString()));

    private static class Cache<T>
        where T : struct, Enum
    {
        public static readonly ConcurrentDictionary<T, string> Names = new();
    }
}

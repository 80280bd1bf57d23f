using System.Text.Json;
using Microsoft.Playwright;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>What a tablet has in its own store: drafts and what waits to be sent.</summary>
internal sealed record TabletShelf(IReadOnlyList<KeptForm> Drafts, IReadOnlyList<KeptForm> Outbox)
{
    // The draft is looked for before the outbox, as a reading goes from one to the other.
    private const string Look = """
        async () => {
            const drafts = Object.keys(localStorage).filter(key => key.startsWith('shopfluids.draft.')).map(key => ({ person: key.split('.')[2], fields: JSON.parse(localStorage.getItem(key)).fields }));
            const outbox = await new Promise((done, fail) => {
                const opening = indexedDB.open('shopfluids', 1);
                opening.onerror = () => fail(opening.error);
                opening.onsuccess = () => {
                    const asking = opening.result.transaction('outbox').objectStore('outbox').getAll();
                    asking.onerror = () => fail(asking.error);
                    asking.onsuccess = () => { opening.result.close(); done(asking.result); };
                };
            });
            return JSON.stringify({ drafts, outbox: outbox.map(item => ({ person: item.person, fields: item.fields })) });
        }
        """;

    /// <param name="onlooker">A page of the tablet that does nothing by itself.</param>
    public static async Task<TabletShelf> SeenByAsync(IPage onlooker) =>
        JsonSerializer.Deserialize<TabletShelf>(await onlooker.EvaluateAsync<string>(Look), JsonSerializerOptions.Web)
            ?? throw new InvalidOperationException("The tablet shows no store.");

    public bool Holds(Guid person) => Drafts.Concat(Outbox).Any(f => f.Person == person);
}

/// <param name="Fields">Names and values as they are sent.</param>
internal sealed record KeptForm(Guid Person, IReadOnlyList<IReadOnlyList<string>> Fields)
{
    public string Note => Of("note");

    public string Of(string name) => Fields.FirstOrDefault(f => f[0] == name)?[1] ?? "";
}

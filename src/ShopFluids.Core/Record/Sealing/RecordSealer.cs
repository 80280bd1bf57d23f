namespace ShopFluids.Core.Record.Sealing;

/// <summary>
/// Holds the key for whoever writes or proves the record. The host gives it once the database is open; without one, as in a database that only
/// a test or a tool fills, entries carry no seal.
/// </summary>
public sealed class RecordSealer(RecordKey? key = null)
{
    private RecordKey? _key = key;

    public RecordKey? Key => Volatile.Read(ref _key);

    public void Use(RecordKey key) => Volatile.Write(ref _key, key);
}

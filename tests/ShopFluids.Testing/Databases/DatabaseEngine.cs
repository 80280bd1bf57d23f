namespace ShopFluids.Testing.Databases;

/// <summary>The two engines the program runs on.</summary>
public enum DatabaseEngine
{
    Sqlite = 1,
    Postgres = 2,
}

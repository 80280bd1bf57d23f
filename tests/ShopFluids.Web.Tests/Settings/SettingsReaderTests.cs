using ShopFluids.Web.Settings;
using Xunit;

namespace ShopFluids.Web.Tests.Settings;

public sealed class SettingsReaderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shopfluids-settings-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Read_NothingSet_TakesDefaults()
    {
        var reading = Read([]);

        Assert.Empty(reading.Faults);
        Assert.Equal(Path.Combine(_folder, "data"), reading.Settings!.DataFolder);
        Assert.Equal(DatabaseEngine.Sqlite, reading.Settings.Engine);
        Assert.Equal($"Data Source={Path.Combine(_folder, "data", "shopfluids.db")}", reading.Settings.ConnectionString);
        Assert.Equal(["http://localhost:5080"], reading.Settings.Urls);
        Assert.False(reading.Settings.IsDemo);
        Assert.All(reading.Effective, e => Assert.Equal("default", e.Source));
    }

    [Fact]
    public void Read_ManyFaults_ListsAllOfThem()
    {
        var reading = Read(new()
        {
            ["SHOPFLUIDS_DATABSE"] = "x",
            ["SHOPFLUIDS_DATABASE_ENGINE"] = "oracle",
            ["SHOPFLUIDS_URLS"] = "localhost:5080",
            ["SHOPFLUIDS_BASE_PATH"] = "coolant",
            ["SHOPFLUIDS_TIME_ZONE"] = "Mars/Olympus",
            ["SHOPFLUIDS_TRUSTED_PROXIES"] = "10.0.0.0/8, proxy",
            ["SHOPFLUIDS_DEMO"] = "maybe",
        });

        Assert.Null(reading.Settings);
        Assert.Equal(
            ["SHOPFLUIDS_BASE_PATH", "SHOPFLUIDS_DATABASE_ENGINE", "SHOPFLUIDS_DATABSE", "SHOPFLUIDS_DEMO", "SHOPFLUIDS_TIME_ZONE", "SHOPFLUIDS_TRUSTED_PROXIES", "SHOPFLUIDS_URLS"],
            reading.Faults.Select(f => f.Setting).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Read_PostgresWithoutConnection_AsksForIt()
    {
        var fault = Assert.Single(Read(new() { ["SHOPFLUIDS_DATABASE_ENGINE"] = "postgres" }).Faults);

        Assert.Equal("SHOPFLUIDS_DATABASE_CONNECTION", fault.Setting);
    }

    [Fact]
    public void Read_MalformedConnection_DoesNotRepeatIt()
    {
        var reading = Read(new() { ["SHOPFLUIDS_DATABASE_ENGINE"] = "postgres", ["SHOPFLUIDS_DATABASE_CONNECTION"] = "Host=x;Pasword=hunter2" });

        Assert.DoesNotContain("hunter2", Assert.Single(reading.Faults).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ValueInNamedFile_IsReadFromThere()
    {
        var secret = Path.Combine(_folder, "connection");
        File.WriteAllText(secret, "Host=db;Database=shop;Username=u;Password=p\n");

        var reading = Read(new() { ["SHOPFLUIDS_DATABASE_ENGINE"] = "postgres", ["SHOPFLUIDS_DATABASE_CONNECTION_FILE"] = secret });

        Assert.Empty(reading.Faults);
        Assert.Contains("Password=p", reading.Settings!.ConnectionString, StringComparison.Ordinal);
        Assert.Contains(reading.Effective, e => e.Name == "SHOPFLUIDS_DATABASE_CONNECTION" && e.IsSecret && e.Source.Contains("SHOPFLUIDS_DATABASE_CONNECTION_FILE", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_ValueAndItsFile_IsAFault()
    {
        var file = Path.Combine(_folder, "urls");
        File.WriteAllText(file, "http://localhost:1");

        var fault = Assert.Single(Read(new() { ["SHOPFLUIDS_URLS"] = "http://localhost:2", ["SHOPFLUIDS_URLS_FILE"] = file }).Faults);

        Assert.Equal("SHOPFLUIDS_URLS_FILE", fault.Setting);
    }

    [Fact]
    public void Read_NamedFileMissing_IsAFault()
    {
        Assert.Equal("SHOPFLUIDS_URLS_FILE", Assert.Single(Read(new() { ["SHOPFLUIDS_URLS_FILE"] = Path.Combine(_folder, "nothing") }).Faults).Setting);
    }

    [Fact]
    public void Read_CommandLineEnvironmentAndFile_TheNearerWins()
    {
        WriteFile("""{ "urls": "http://localhost:1", "basePath": "/file", "timeZone": "Europe/Paris" }""");

        var reading = Read(new() { ["SHOPFLUIDS_URLS"] = "http://localhost:2", ["SHOPFLUIDS_BASE_PATH"] = "/environment" }, new() { ["urls"] = "http://localhost:3" });

        Assert.Equal(["http://localhost:3"], reading.Settings!.Urls);
        Assert.Equal("/environment", reading.Settings.BasePath);
        Assert.Equal("Europe/Paris", reading.Settings.TimeZoneId);
    }

    [Theory]
    [InlineData("""{ "url": "http://localhost:1" }""")]
    [InlineData("""{ "urls": 5080 }""")]
    [InlineData("""[ "urls" ]""")]
    [InlineData("""{ "urls": """)]
    public void Read_BadSettingsFile_NamesTheFile(string content)
    {
        WriteFile(content);

        Assert.Contains("shopfluids.json", Assert.Single(Read([]).Faults).Setting, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_Demo_KeepsToItsOwnFolder()
    {
        WriteFile("""{ "urls": "http://localhost:9" }""");

        var settings = Read([], new() { ["demo"] = "true" }).Settings!;

        Assert.Equal(Path.Combine(_folder, "data", "demo"), settings.DataFolder);
        // The real shop's settings file is not the demo's.
        Assert.Equal(["http://localhost:5080"], settings.Urls);
    }

    [Fact]
    public void Read_TestVariables_AreNoFault()
    {
        Assert.Empty(Read(new() { ["SHOPFLUIDS_TEST_POSTGRES"] = "container" }).Faults);
    }

    private SettingsReading Read(Dictionary<string, string> environment, Dictionary<string, string>? options = null) =>
        SettingsReader.Read(environment, options ?? [], _folder);

    private void WriteFile(string content)
    {
        Directory.CreateDirectory(Path.Combine(_folder, "data"));
        File.WriteAllText(Path.Combine(_folder, "data", "shopfluids.json"), content);
    }
}

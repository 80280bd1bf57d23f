using Microsoft.EntityFrameworkCore;
using Npgsql;
using ShopFluids.Core.Database;
using ShopFluids.Data.Postgres;
using Xunit;

namespace ShopFluids.Core.Tests.Database;

public sealed class PostgresConnectionTests
{
    [Theory]
    [InlineData("Host=nowhere", true)]
    [InlineData("Host=nowhere;No Reset On Close=false", false)]
    [InlineData("Host=nowhere;NoResetOnClose=false", false)]
    [InlineData("Host=nowhere;no reset on close=true", true)]
    public void Configure_AConnectionString_ResetsNothingUnlessItSaysSo(string connectionString, bool resetsNothing)
    {
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();

        new PostgresProvider().Configure(options, connectionString);

        using var db = new ShopFluidsDbContext(options.Options);
        Assert.Equal(resetsNothing, new NpgsqlConnectionStringBuilder(db.Database.GetConnectionString()).NoResetOnClose);
    }
}

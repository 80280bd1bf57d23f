using System.Globalization;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Pages.Setup.Sumps;
using Xunit;

namespace ShopFluids.Web.Tests.Setup;

public sealed class SumpDraftTests
{
    // 400 mm are 15.748 in, and these 399.9992 mm: who changes only the area must not change the volumes.
    [Fact]
    public async Task ReadShape_TableNobodyTouchedInUsUnits_IsKeptToTheDigit()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        StrappingRow[] rows = [new(0, 0), new(100, 30), new(400, 200)];
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08", shape: new(GeometryKind.StrappingTable, 0, 0, 400, 0, rows)));
        var setup = await shop.SetupAsync();
        var format = new ShopFormat(CultureInfo.GetCultureInfo("en-US"), UnitSystem.UsCustomary, setup.Calendar);
        var draft = SumpDraft.Of(setup.FindSump("S-08")!, format);

        Assert.Equal(rows, draft.ReadShape(new FormReader(format)).Points);

        draft.Table += " ";
        var typed = draft.ReadShape(new FormReader(format)).Points;
        Assert.Equal(rows.Length, typed.Count);
        Assert.NotEqual(rows, typed);
    }
}

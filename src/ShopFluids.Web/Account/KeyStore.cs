using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Web.Account;

/// <summary>
/// Keeps the keys of sign-in cookies in the database, so that they outlive a restart and hold on every instance. The store that
/// comes with the framework saves synchronously, which our context refuses; this one does the same asynchronously.
/// </summary>
internal sealed class KeyStore(IDbContextFactory<ShopFluidsDbContext> contexts) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements()
    {
        using var database = contexts.CreateDbContext();
        return [.. database.DataProtectionKeys.AsNoTracking().OrderBy(k => k.Id).Select(k => k.Xml).AsEnumerable().OfType<string>().Select(xml => XElement.Parse(xml))];
    }

    public void StoreElement(XElement element, string friendlyName) =>
        Task.Run(() => StoreAsync(element, friendlyName)).GetAwaiter().GetResult();

    private async Task StoreAsync(XElement element, string friendlyName)
    {
        await using var database = await contexts.CreateDbContextAsync();
        database.DataProtectionKeys.Add(new DataProtectionKey { FriendlyName = friendlyName, Xml = element.ToString(SaveOptions.DisableFormatting) });
        await database.SaveChangesAsync();
    }
}

using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Photos;

/// <summary>Holds the bytes of every photo against the hash in its recorded row.</summary>
internal static class PhotoProof
{
    public static async Task CheckAsync(ShopFluidsDbContext db, List<VerifyFinding> findings, CancellationToken cancellationToken)
    {
        var hashes = await db.Photos.AsNoTracking().Select(p => new { p.Id, p.Sha256 }).ToDictionaryAsync(p => p.Id, p => p.Sha256, cancellationToken);
        var contents = await db.PhotoContents.AsNoTracking().OrderBy(c => c.PhotoId).Select(c => c.PhotoId).ToListAsync(cancellationToken);

        // One at a time: together they may be more than the memory holds.
        foreach (var id in contents)
        {
            var bytes = await db.PhotoContents.AsNoTracking().Where(c => c.PhotoId == id).Select(c => c.Bytes).SingleAsync(cancellationToken);
            if (!hashes.Remove(id, out var hash))
            {
                findings.Add(new(VerifyProblem.RowUnrecorded, Where(id)));
            }
            else if (hash != Convert.ToHexStringLower(SHA256.HashData(bytes)))
            {
                findings.Add(new(VerifyProblem.RowChanged, Where(id)));
            }
        }

        findings.AddRange(hashes.Keys.Order().Select(id => new VerifyFinding(VerifyProblem.RowMissing, Where(id))));
    }

    private static string Where(Guid id) => $"{nameof(PhotoContent)} {id:D}";
}

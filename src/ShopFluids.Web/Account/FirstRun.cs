using System.Security.Cryptography;
using System.Text;
using ShopFluids.Core.People;

namespace ShopFluids.Web.Account;

/// <summary>
/// Whether the shop has its first person yet, and the code that lets whoever reads the server's output make that person. The
/// code is this process's own: with several instances, the form is answered by the instance that printed it.
/// </summary>
internal sealed class FirstRun(AccountsQuery accounts)
{
    // Without I, O, 0 and 1, which look alike on a terminal.
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
    private const int CodeLength = 8;
    private const int TriesPerCode = 20;
    private readonly Lock _gate = new();
    private string _code = NewCode();
    private int _tries;
    private volatile bool _isOver;

    /// <summary>Once somebody has an account this is remembered, and asks nothing more.</summary>
    public async Task<bool> IsOverAsync(CancellationToken cancellationToken)
    {
        if (!_isOver && await accounts.AnyAsync(cancellationToken))
        {
            _isOver = true;
        }

        return _isOver;
    }

    /// <summary>As printed: XXXX-XXXX.</summary>
    public string Code => $"{_code[..(CodeLength / 2)]}-{_code[(CodeLength / 2)..]}";

    /// <param name="typed">Case, blanks and the dash do not matter.</param>
    /// <param name="isNewCode">The old one was guessed at too often; a new one is to be printed.</param>
    public bool Accepts(string typed, out bool isNewCode)
    {
        var plain = typed.ToUpperInvariant().Replace("-", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal);
        lock (_gate)
        {
            isNewCode = false;
            if (CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(plain), Encoding.UTF8.GetBytes(_code)))
            {
                return true;
            }

            if (++_tries >= TriesPerCode)
            {
                _tries = 0;
                _code = NewCode();
                isNewCode = true;
            }

            return false;
        }
    }

    private static string NewCode() => RandomNumberGenerator.GetString(Letters, CodeLength);
}

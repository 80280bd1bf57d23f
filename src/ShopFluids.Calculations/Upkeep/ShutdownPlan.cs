namespace ShopFluids.Calculations.Upkeep;

/// <summary>What a shutdown of some days asks of one sump.</summary>
/// <param name="SkimBefore">Skim before leaving.</param>
/// <param name="TestBefore">Test before leaving: something is wrong already, and time will not mend it.</param>
/// <param name="AdjustBefore">Bring the concentration within its limits before leaving.</param>
/// <param name="TopUpBefore">Fill up before leaving: the pump would be uncovered by the end.</param>
/// <param name="DrainBefore">Drain and clean before leaving instead of the rest; fill fresh afterwards.</param>
/// <param name="CirculationHours">Hours of circulation over the whole shutdown; 0 where none is asked for.</param>
/// <param name="TestAfter">Test before the first cut.</param>
/// <param name="ExpectedLitres">Content at the end if only water evaporates, L; never below the product that is in it.</param>
/// <param name="ExpectedPercent">Concentration at the end, % v/v.</param>
/// <param name="AdjustAfter">Whether the concentration will have left its limits by then.</param>
public sealed record ShutdownPlan(
    bool SkimBefore,
    bool TestBefore,
    bool AdjustBefore,
    bool TopUpBefore,
    bool DrainBefore,
    double CirculationHours,
    bool TestAfter,
    double ExpectedLitres,
    double ExpectedPercent,
    bool AdjustAfter)
{
    /// <summary>Works a plan out for one sump. A number of days on a limit counts as reaching it.</summary>
    /// <param name="idleDays">Days without production, 0 to 3650.</param>
    /// <param name="sump">What is known about the sump.</param>
    /// <param name="limits">From when what is done.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="idleDays"/> is out of its range.</exception>
    public static ShutdownPlan For(int idleDays, IdleSump sump, ShutdownLimits limits)
    {
        ArgumentNullException.ThrowIfNull(sump);
        ArgumentNullException.ThrowIfNull(limits);
        ShutdownLimits.Days(idleDays, nameof(idleDays));
        var product = sump.VolumeLitres * sump.Percent / 100;
        var left = Math.Max(product, sump.VolumeLitres - (idleDays * sump.IdleEvaporationLitresPerDay));
        var percent = left > 0 ? Math.Min(100, 100 * product / left) : 0;
        if (idleDays > 0 && idleDays >= limits.DrainFromDays)
        {
            return new(false, false, false, false, true, 0, false, left, percent, false);
        }

        bool Reaches(int days) => idleDays > 0 && idleDays >= days;

        bool IsOutside(double value) => value < sump.LowestPercent || value > sump.HighestPercent;

        return new(
            Reaches(limits.SkimFromDays),
            idleDays > 0 && sump.HasFlag,
            idleDays > 0 && IsOutside(sump.Percent),
            idleDays > 0 && left < sump.IntakeLitres,
            false,
            Reaches(limits.CirculateFromDays) ? idleDays * limits.CirculateHoursPerDay : 0,
            Reaches(limits.TestAfterFromDays) || (idleDays > 0 && sump.HasFlag),
            left,
            percent,
            IsOutside(percent));
    }
}

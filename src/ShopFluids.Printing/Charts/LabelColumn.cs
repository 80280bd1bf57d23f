namespace ShopFluids.Printing.Charts;

/// <summary>Moves labels of one column, or of one row, apart so that none covers another, as little as possible and in their order.</summary>
public static class LabelColumn
{
    /// <param name="wanted">Heights at which the labels would like to stand, in any order.</param>
    /// <param name="distance">Least distance between two.</param>
    /// <param name="top">Upper end of the column.</param>
    /// <param name="bottom">Lower end; overrun only if there are more labels than the column can hold.</param>
    /// <returns>The heights, in the order of <paramref name="wanted"/>.</returns>
    public static IReadOnlyList<double> Spread(IReadOnlyList<double> wanted, double distance, double top, double bottom)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        var order = Enumerable.Range(0, wanted.Count).OrderBy(i => wanted[i]).ThenBy(i => i).ToArray();

        // Neighbours that collide form a group that stands about the mean of its wishes; groups that then collide are joined.
        var groups = new List<(double Sum, int Count)>();
        foreach (var index in order)
        {
            groups.Add((wanted[index], 1));
            while (groups.Count > 1 && Top(groups[^1]) < Bottom(groups[^2]) + distance)
            {
                groups[^2] = (groups[^2].Sum + groups[^1].Sum, groups[^2].Count + groups[^1].Count);
                groups.RemoveAt(groups.Count - 1);
            }
        }

        var heights = new double[wanted.Count];
        var next = 0;
        foreach (var group in groups)
        {
            for (var n = 0; n < group.Count; n++)
            {
                heights[order[next++]] = Top(group) + (n * distance);
            }
        }

        return heights;

        double Top((double Sum, int Count) group)
        {
            var length = (group.Count - 1) * distance;
            return Math.Max(top, Math.Min((group.Sum / group.Count) - (length / 2), bottom - length));
        }

        double Bottom((double Sum, int Count) group) => Top(group) + ((group.Count - 1) * distance);
    }
}

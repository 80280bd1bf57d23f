using System.Globalization;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Web.Pages.Bench.Pictures;
using Xunit;

namespace ShopFluids.Web.Tests.Bench;

public sealed class SumpsLayoutTests
{
    private static readonly ShopFormat Format = new(CultureInfo.GetCultureInfo("en-GB"), UnitSystem.Metric, new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), new HashSet<DateOnly>()));

    public static TheoryData<string> Shapes => ["box", "boxes", "hopper", "standing", "lying", "table"];

    [Theory, MemberData(nameof(Shapes))]
    public void Fluid_AnyShape_CoversAsMuchOfTheDrawingAsOfTheSump(string name)
    {
        var shape = Shape(name);
        foreach (var share in new[] { 0.2, 0.5, 0.9 })
        {
            var litres = share * shape.BrimLitres;
            var (part, whole) = (AreaOf(Drawn(shape, litres).Fluid), AreaOf(Drawn(shape, shape.BrimLitres).Fluid));

            Assert.Equal(share, part / whole, 0.02);
        }
    }

    [Fact]
    public void Wall_LyingTank_ClosesAtTheTopAndIsWidestInTheMiddle()
    {
        var sump = Drawn(Shape("lying"), 500);
        var wall = Points(sump.Wall);

        Assert.Equal(wall[0].X + 3, wall[^1].X, 0.5);
        Assert.Equal(wall.Max(p => p.Y) - wall.Min(p => p.Y), wall.Max(p => p.X) - wall.Min(p => p.X), 4.0);
    }

    [Fact]
    public void Fluid_SteppedSump_KeepsOneWallUpright()
    {
        var fluid = Points(Drawn(Shape("boxes"), Shape("boxes").BrimLitres).Fluid);

        Assert.All(fluid.Take(121), p => Assert.Equal(fluid[0].X, p.X));
    }

    [Fact]
    public void Fluid_OnlyVolumesKnown_IsABox()
    {
        var sump = new SumpsLayout(new BenchSumps(100, [new BenchSumpDrawing("", "", 50, 20, [])]), Format).Sumps[0];

        Assert.Equal(4, Points(sump.Fluid).Count);
        Assert.Equal(AreaOf(sump.Fluid) * 2 / 3, AreaOf(sump.Added), 1.0);
    }

    private static SumpGeometry Shape(string name) => name switch
    {
        "box" => new RectangularSump(900, 525, 381, 10),
        "boxes" => new BoxesSump([new SumpBox(1000, 500, 0), new SumpBox(600, 400, 150)], 400),
        "hopper" => new HopperSump(800, 600, 400, 200, 300, 500),
        "standing" => new VerticalCylinderSump(570, 850),
        "lying" => new HorizontalCylinderSump(1000, 2000),
        _ => new StrappingTableSump([new(0, 0), new(100, 20), new(300, 120), new(400, 140)]),
    };

    private static DrawnSump Drawn(SumpGeometry shape, double litres) =>
        new SumpsLayout(new BenchSumps(shape.BrimLitres, [new BenchSumpDrawing("", "", litres, 0, []) { Shape = shape }]), Format).Sumps[0];

    private static List<(double X, double Y)> Points(string path) =>
    [
        .. path.TrimEnd('Z').Split(['M', 'L'], StringSplitOptions.RemoveEmptyEntries)
            .Select(p => p.Split(' '))
            .Select(p => (double.Parse(p[0], CultureInfo.InvariantCulture), double.Parse(p[1], CultureInfo.InvariantCulture))),
    ];

    private static double AreaOf(string path)
    {
        var points = Points(path);
        return Math.Abs(points.Select((p, i) => (p.X * points[(i + 1) % points.Count].Y) - (points[(i + 1) % points.Count].X * p.Y)).Sum()) / 2;
    }
}

using System.Text;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class DrawerTests
{
    private static DrawerReading Read(string text) => DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes(text));

    [Fact]
    public void The_built_in_drawer_has_a_trimmer_of_sixteenths_and_of_millimetres()
    {
        Assert.Equal(Length.FromInches(1, 16), Drawer.Default.IncrementFor(LengthUnit.Inch));
        Assert.Equal(Length.FromMillimetres(1), Drawer.Default.IncrementFor(LengthUnit.Millimetre));
        Assert.Equal(Length.FromInches(1, 8), Drawer.Default.DieMargin);
        Assert.Equal(Length.FromInches(1, 2), Drawer.Default.SmallestPiece);
        Assert.Equal(
            ["1/16 in", "1/8 in", "1 mm", "2 mm", "3 mm"], Drawer.Default.Foam.Select(foam => LengthText.Write(foam, LengthUnit.Inch)));
    }

    // Sizes seen on craft and studio pages: common practice, no source.
    [Theory]
    [InlineData(5, 8)]
    [InlineData(3, 4)]
    [InlineData(3, 2)]
    [InlineData(2, 1)]
    [InlineData(5, 2)]
    public void The_built_in_drawer_has_the_circles_of_the_trade(int numerator, int denominator)
    {
        var diameter = Length.FromInches(numerator, denominator);
        Assert.Contains(new Die(PieceKind.Circle, diameter, diameter), Drawer.Default.Dies);
    }

    [Fact]
    public void The_built_in_drawer_has_dies_of_several_kinds_and_none_twice()
    {
        Assert.Superset(
            new HashSet<PieceKind> { PieceKind.Circle, PieceKind.Square, PieceKind.Oval, PieceKind.Panel },
            Drawer.Default.Dies.Select(die => die.Kind).ToHashSet());
        Assert.Equal(Drawer.Default.Dies.Count, Drawer.Default.Dies.Distinct().Count());
    }

    [Fact]
    public void A_drawer_file_says_what_the_maker_has()
    {
        var reading = Read("""
            { "units": "mm", "inch-increment": "1/32 in", "metric-increment": 0.5, "foam": [ 1.5 ], "die-margin": 0, "smallest-piece": "2 cm",
              "dies": [ { "kind": "circle", "sizes": [ 20, "1 in" ] }, { "kind": "oval", "sizes": [ "30 x 20" ] } ] }
            """);
        Assert.Empty(reading.Diagnostics);
        var drawer = reading.Drawer!;
        Assert.Equal(Length.FromInches(1, 32), drawer.InchIncrement);
        Assert.Equal(Length.FromNanometres(500_000), drawer.MetricIncrement);
        Assert.Equal([Length.FromNanometres(1_500_000)], drawer.Foam);
        Assert.Equal(Length.Zero, drawer.DieMargin);
        Assert.Equal(Length.FromMillimetres(20), drawer.SmallestPiece);
        Assert.Equal(
            [
                new(PieceKind.Circle, Length.FromMillimetres(20), Length.FromMillimetres(20)),
                new(PieceKind.Circle, Length.FromInches(1), Length.FromInches(1)),
                new(PieceKind.Oval, Length.FromMillimetres(30), Length.FromMillimetres(20)),
            ],
            drawer.Dies);
    }

    [Fact]
    public void What_a_drawer_file_leaves_out_is_as_in_the_built_in_drawer_and_an_empty_list_is_not_left_out()
    {
        var reading = Read("""{ "units": "in", "dies": [] }""");
        Assert.Empty(reading.Diagnostics);
        Assert.Empty(reading.Drawer!.Dies);
        Assert.Equal(Drawer.Default.Foam, reading.Drawer.Foam);
        Assert.Equal(Drawer.Default.InchIncrement, reading.Drawer.InchIncrement);
    }

    [Theory]
    [InlineData("[]", "E0109")]
    [InlineData("{}", "E0108")]
    [InlineData("""{ "units": "in", "die": [] }""", "E0107")]
    [InlineData("""{ "units": "in", "inch-increment": 0 }""", "E0201")]
    [InlineData("""{ "units": "in", "inch-increment": "about 1/8" }""", "E0203")]
    [InlineData("""{ "units": "in", "die-margin": -1 }""", "E0201")]
    [InlineData("""{ "units": "in", "foam": [ "thick" ] }""", "E0111")]
    [InlineData("""{ "units": "in", "foam": [ 0 ] }""", "E0201")]
    [InlineData("""{ "units": "in", "foam": [ "exactly 1/8" ] }""", "E0203")]
    [InlineData("""{ "units": "in", "dies": [ "circle" ] }""", "E0109")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "strip", "sizes": [] } ] }""", "E0110")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "circle" } ] }""", "E0108")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "circle", "sizes": [ -1 ] } ] }""", "E0201")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "oval", "sizes": [ 2 ] } ] }""", "E0109")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "oval", "sizes": [ "2 x 0" ] } ] }""", "E0225")]
    public void A_mistake_in_a_drawer_gives_one_error(string text, string code)
    {
        var reading = Read(text);
        Assert.Null(reading.Drawer);
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.Equal(code, diagnostic.Code);
        Assert.NotNull(diagnostic.Remedy);
    }
}

using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;
using static Trimwright.Tests.Drawing.MeasuredSheets;

namespace Trimwright.Tests.Drawing;

public partial class MeasuredDrawingTests
{
    public static TheoryData<string> Cards => [.. SampleCards.ByName.Keys];

    // Many tests look at the same sheets.
    private static readonly ConcurrentDictionary<string, MeasuredSheets> Drawn = [];

    private static MeasuredSheets Draw(string name) => Drawn.GetOrAdd(name, static name => new(SampleCards.ByName[name]()));

    [Theory]
    [MemberData(nameof(Cards))]
    public void Words_are_clear_of_all_else_and_dimensions_are_true(string name)
    {
        Assert.Contains(Draw(name).Dimensions, HasLine);
        Draw(name).AssertReadableAndTrue();
        new MeasuredSheets(SampleCards.ByName[name](), bothUnits: true).AssertReadableAndTrue();
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_dimension_line_ends_on_extension_lines(string name)
    {
        Assert.All(Draw(name).Sheets, sheet =>
        {
            var lines = sheet.Dimensions.Where(HasLine).SelectMany(group => group.Elements(Name("path")))
                .Select(path => SvgSheet.Numbers(path.Attribute("d")!.Value)).Where(numbers => numbers.Length == 4).ToArray();

            // On a tilted piece a dimension line ends on the edges of the piece itself.
            Assert.All(sheet.Dimensions.Where(dimension => HasLine(dimension) && dimension.Attribute("transform") is null), dimension =>
            {
                var ends = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
                var across = ends[1] == ends[3];
                Assert.True(IsCrossed(ends[0], ends[1]) && IsCrossed(ends[2], ends[3]), dimension.ToString());

                bool IsCrossed(decimal x, decimal y) => lines.Any(line => across
                    ? line[0] == x && line[2] == x && Math.Min(line[1], line[3]) < y && Math.Max(line[1], line[3]) > y
                    : line[1] == y && line[3] == y && Math.Min(line[0], line[2]) < x && Math.Max(line[0], line[2]) > x);
            });
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void No_two_dimensions_of_a_sheet_say_the_same_distance(string name) => Assert.All(Draw(name).Sheets, sheet =>
    {
        var ends = sheet.Dimensions.Where(dimension => HasLine(dimension) && dimension.Attribute("transform") is null).Select(dimension =>
        {
            var n = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
            return n[1] == n[3] ? $"across {n[0]} {n[2]}" : $"down {n[1]} {n[3]}";
        }).ToArray();

        Assert.Equal(ends.Length, ends.Distinct().Count());
    });

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_piece_and_every_mat_has_its_size_said(string name)
    {
        var sheets = Draw(name);
        var card = sheets.Card;
        var said = sheets.Dimensions.ToLookup(d => ((string)d.Attribute("data-of")!, (string)d.Attribute("data-measure")!), d => (string)d.Attribute("data-nm")!);

        Assert.Equal(card.Width.Nanometres.ToString(CultureInfo.InvariantCulture), said[("card", "width")].Single());
        Assert.All(card.Pieces, piece =>
        {
            var of = piece.Source.Row ?? piece.Name;
            var size = said[(of, "size")].SingleOrDefault();
            if (!piece.Source.Tilt.IsZero && size is null)
            {
                // Along the edges of the tilted piece itself.
                Assert.Equal(Text(piece.Width), said[(of, "width")].Single());
                Assert.Equal(Text(piece.Height), said[(of, "height")].Single());
                return;
            }

            if (size is not null)
            {
                Assert.Equal(piece.Source.Kind == PieceKind.Circle ? Text(piece.Width) : $"{Text(piece.Width)} {Text(piece.Height)}", size);
            }
            else
            {
                // A size between lines; where two pieces share both lines, the one below says it.
                Assert.Contains(said.SelectMany(values => values), value => value == Text(piece.Width));
                Assert.Contains(said.SelectMany(values => values), value => value == Text(piece.Height));
            }

            for (var i = 0; i < piece.Mats.Count; i++)
            {
                var mat = piece.Mats[i];
                var expected = piece.Source.Kind == PieceKind.Circle ? Text(mat.Width) : $"{Text(mat.Width)} {Text(mat.Height)}";
                Assert.Equal($"{expected} {mat.Reveal.Nanometres}", said[(of, $"mat-{i + 1}")].Single());
            }
        });

        static string Text(Length length) => length.Nanometres.ToString(CultureInfo.InvariantCulture);
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void What_a_callout_says_is_what_its_values_are(string name)
    {
        var sheets = Draw(name);

        Assert.All(sheets.Dimensions.Where(dimension => !HasLine(dimension)), dimension =>
        {
            // Without the words around them, the lengths stand between commas and the sign of multiplication.
            var words = Words().Replace(TextOf(dimension), "").Split([", ", " x "], StringSplitOptions.None);
            var values = ((string)dimension.Attribute("data-nm")!).Split(' ');
            Assert.Equal(
                values.Select(value => decimal.Parse(value, CultureInfo.InvariantCulture) / 1_000_000),
                words.Select(length => DrawnLength.Read(length, sheets.Card.Unit).Millimetres));
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void The_size_in_a_callout_is_that_of_the_outline_which_is_drawn(string name)
    {
        var sheets = Draw(name);
        var compared = 0;
        foreach (var sheet in sheets.Sheets)
        {
            foreach (var size in sheet.Dimensions.Where(d => (string?)d.Attribute("data-measure") == "size"))
            {
                // Its own piece, or the first of a row.
                var of = (string)size.Attribute("data-of")!;
                var outline = sheet.Root.Descendants().FirstOrDefault(element => (string?)element.Attribute("id") is { } id && (id == "piece-" + of || id == $"piece-{of}-1"))?.Elements().First();
                decimal[]? drawn = outline?.Name.LocalName switch
                {
                    "rect" => [Attribute("width"), Attribute("height")],
                    "circle" => [2 * Attribute("r")],
                    "ellipse" => [2 * Attribute("rx"), 2 * Attribute("ry")],
                    _ => null,
                };
                if (drawn is not null)
                {
                    Assert.Equal(drawn, TextOf(size).Replace("⌀", "", StringComparison.Ordinal).Split(" x ").Select(part => DrawnLength.Read(part, sheets.Card.Unit).Millimetres));
                    compared++;
                }

                decimal Attribute(string name) => decimal.Parse(outline!.Attribute(name)!.Value, CultureInfo.InvariantCulture);
            }
        }

        Assert.True(compared > 0 || name == "plain");
    }

    [Fact]
    public void An_offset_says_how_far_a_piece_lies_from_the_edge_of_what_carries_it()
    {
        var sheets = Draw("bean-row");

        // The sun begins 18/16 in from the left of the card, its mat 2/16 in before it, and the field 4/16 in: 12/16 in are left.
        Assert.Equal("3⁄4", sheets.TextOf("sun", "left"));
        Assert.Equal("1⁄2", sheets.TextOf("sun", "top"));

        // The band ends at 76/16 in, its mat 1/16 in below, the field at 84/16 in.
        Assert.Equal("7⁄16", sheets.TextOf("band", "bottom"));
    }

    [Fact]
    public void A_row_says_its_gap_once_with_how_often_it_occurs()
    {
        Assert.Equal("4 x 3⁄8", Draw("plot-markers").TextOf("markers", "gap"));
        Assert.Equal("3 x 26", Draw("seed-packets").TextOf("packets", "pitch"));
    }

    [Fact]
    public void Pieces_that_are_alike_say_their_size_once_with_how_often_it_occurs()
    {
        var sheets = new MeasuredSheets(new CardMaker(CardMaker.A2, Holding.Portrait, "Three beds")
            .Add(PieceKind.Panel, "bed-1", "leaf", (4, 4, 22, 12))
            .Add(PieceKind.Panel, "bed-2", "leaf", (4, 24, 22, 12))
            .Add(PieceKind.Panel, "bed-3", "leaf", (30, 40, 22, 12))
            .Make());

        Assert.Equal("3 x 1 3⁄8", sheets.TextOf("bed-1", "width"));
        Assert.Equal("3 x 3⁄4", sheets.TextOf("bed-1", "height"));
        Assert.Contains(sheets.Sheets[0].Texts, words => words.Text == "bed-1, bed-2, bed-3, 3 x");
        Assert.DoesNotContain(sheets.Dimensions, d => (string?)d.Attribute("data-of") is "bed-2" or "bed-3" && (string?)d.Attribute("data-measure") is "width" or "height");
    }

    [Fact]
    public void Round_pieces_have_their_sizes_in_callouts() => Assert.Equal("⌀2", Draw("bean-row").TextOf("sun", "size"));

    [Fact]
    public void A_tilted_piece_with_room_on_it_is_measured_along_its_own_edges()
    {
        var sheets = new MeasuredSheets(new CardMaker(CardMaker.A7, Holding.Portrait, "One tilted sign")
            .Add(PieceKind.Label, "sign", "cream", (16, 20, 44, 32), tilt: -8)
            .Make());
        var width = sheets.Dimensions.Single(d => (string?)d.Attribute("data-measure") == "width" && (string?)d.Attribute("data-of") == "sign");

        Assert.Equal("2 3⁄4", TextOf(width));
        Assert.Equal((string?)sheets.Sheets[0].ById("piece-sign").Attribute("transform"), (string?)width.Attribute("transform"));
        Assert.Equal("2", sheets.TextOf("sign", "height"));
        Assert.Contains(sheets.Sheets[0].Texts, words => words.Text == "tilted 8° left");
    }

    [Fact]
    public void A_tilted_piece_without_room_on_it_has_its_size_in_a_callout()
    {
        var sheets = new MeasuredSheets(new CardMaker(CardMaker.A7, Holding.Portrait, "A small tilted sign")
            .Add(PieceKind.Label, "sign", "cream", (16, 20, 10, 8), tilt: 8)
            .Make());

        Assert.Equal("5⁄8 x 1⁄2", sheets.TextOf("sign", "size"));
        Assert.Contains(sheets.Sheets[0].Texts, words => words.Text == "tilted 8° right");
    }

    [Fact]
    public void What_fills_its_parent_says_its_reveal_and_is_not_placed_by_distances()
    {
        var sheets = Draw("bean-row");

        Assert.Equal("reveal 1⁄8", sheets.TextOf("ground", "reveal"));
        Assert.DoesNotContain(sheets.Dimensions, d => (string?)d.Attribute("data-of") == "ground" && HasLine(d));
    }

    [Fact]
    public void A_place_that_no_ruler_shows_is_said_to_the_nearest_and_marked_as_such()
    {
        var card = new CardMaker(CardMaker.A2, Holding.Portrait, "Sevenths")
            .Add(PieceKind.Panel, "bed", "leaf", (10, 10, 40, 20))
            .Make();
        var seventh = new Position(Rational.From(Length.NanometresPerInch, 7));
        var moved = card.Pieces[0] with
        {
            Box = card.Pieces[0].Box.Moved(seventh, default), Outline = Trimwright.Geometry.Outline.FromBox(card.Pieces[0].Box.Moved(seventh, default)),
        };
        var sheets = new MeasuredSheets(card with { Pieces = [moved] });

        // 5/8 + 1/7 = 43/56 from the left, which is 49.14/64; the right is nearer to nothing.
        Assert.Equal("~49⁄64", sheets.TextOf("bed", "left"));
        Assert.Contains(sheets.Sheets[0].Texts, words => words.Text == "not exact, to the nearest 1⁄64 in");
        Assert.DoesNotContain(Draw("bean-row").Sheets[0].Texts, words => words.Text.Contains("not exact", StringComparison.Ordinal));
    }

    [Fact]
    public void Both_units_stand_together_where_asked_for()
    {
        var inch = new MeasuredSheets(SampleCards.BeanRow(), bothUnits: true);
        var metric = new MeasuredSheets(SampleCards.SeedPackets(), bothUnits: true);

        // 7/16 in = 11.1125 mm; 2 in = 50.8 mm; 26 mm = 1.0236 in = 65.51/64 in.
        Assert.Equal("7⁄16 [11.1]", inch.TextOf("band", "bottom"));
        Assert.Equal("⌀2 [50.8]", inch.TextOf("sun", "size"));
        Assert.Equal("3 x 26 [1 1⁄32]", metric.TextOf("packets", "pitch"));
        Assert.Contains(inch.Sheets[0].Texts, words => words.Text == "in [mm to the nearest 0.1], width x height");
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_leader_runs_unbroken_from_a_dot_on_its_piece_where_the_card_is_not_overfull(string name)
    {
        var callouts = Draw(name).Sheets.SelectMany(sheet => sheet.Root.Elements()).Where(group => (string?)group.Attribute("class") == "callout").ToArray();

        Assert.All(callouts, callout =>
        {
            var leader = Assert.Single(callout.Elements(), line => (string?)line.Attribute("class") == "leader");
            var dot = callout.Element(Name("circle"))!;
            Assert.StartsWith($"M {dot.Attribute("cx")!.Value} {dot.Attribute("cy")!.Value} L", leader.Attribute("d")!.Value, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void A_card_of_forty_pieces_is_shared_out_among_sheets_with_a_key()
    {
        var maker = new CardMaker(CardMaker.A7, Holding.Portrait, "Forty beds");
        for (var i = 0; i < 40; i++)
        {
            maker.Add(
                i % 3 == 0 ? PieceKind.Circle : PieceKind.Panel, $"bed-{i}", Papers[i % 5], (2 + (i % 5 * 15), 2 + (i / 5 * 13), 11, 11), mats: [("soil", 1)]);
        }

        var sheets = new MeasuredSheets(maker.Make());
        sheets.AssertReadableAndTrue();
        var names = sheets.Sheets.SelectMany(sheet => sheet.Texts).Where(words => (string?)words.Element.Attribute("class") == "name").ToArray();
        var numbers = sheets.Sheets[0].Texts.Where(words => (string?)words.Element.Attribute("class") == "number").ToArray();

        // Every piece has a number on the overview, and each of those numbers heads a callout on one of the other sheets.
        Assert.Equal(40, numbers.Length);
        Assert.True(sheets.Sheets.Count > 2);
        Assert.Equal(
            numbers.Select(words => words.Text).Distinct().OrderBy(int.Parse), names.Select(words => words.Text.Split(' ')[0]).OrderBy(int.Parse));
        Assert.Contains(sheets.Sheets[1].Texts, words => words.Text == $"2 of {sheets.Sheets.Count}");
    }

    [GeneratedRegex("⌀|^mat( \\d:)? |reveal |notch |point |bars |window |corners | at the tail")]
    private static partial Regex Words();

    private static readonly string[] Papers = ["cream", "leaf", "soil", "marigold", "beet"];
}

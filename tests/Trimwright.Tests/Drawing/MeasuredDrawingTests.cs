using System.Collections.Concurrent;
using System.Globalization;
using System.Numerics;
using System.Xml.Linq;
using CsCheck;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Drawing;

public class MeasuredDrawingTests
{
    public static TheoryData<string> Cards => [.. SampleCards.ByName.Keys];

    // Many tests look at the same sheets.
    private static readonly ConcurrentDictionary<string, (FittedCard Card, SvgSheet Sheet)> Drawn = [];

    private static (FittedCard Card, SvgSheet Sheet) Draw(string name) => Drawn.GetOrAdd(name, static name =>
    {
        var card = SampleCards.ByName[name]();
        return (card, new(SvgWriter.Write(MeasuredDrawing.Draw(card))));
    });

    [Theory]
    [MemberData(nameof(Cards))]
    public void The_text_of_a_dimension_is_the_exact_length_of_its_line(string name)
    {
        var (card, sheet) = Draw(name);
        var lines = sheet.Dimensions.Where(HasLine).ToArray();

        Assert.NotEmpty(lines);
        Assert.All(lines, dimension =>
        {
            var points = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
            var (across, down) = (points[2] - points[0], points[3] - points[1]);
            Assert.True(across == 0 || down == 0);
            Assert.Equal(Written(dimension, card.Unit, Nanometres(across + down)), dimension.Element(Name("text"))!.Value);
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_dimension_line_ends_on_extension_lines(string name)
    {
        var (_, sheet) = Draw(name);
        var lines = sheet.Dimensions.Where(HasLine).SelectMany(group => group.Elements(Name("path")))
            .Select(path => SvgSheet.Numbers(path.Attribute("d")!.Value)).Where(numbers => numbers.Length == 4).ToArray();

        Assert.All(sheet.Dimensions.Where(HasLine), dimension =>
        {
            var ends = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
            var across = ends[1] == ends[3];
            Assert.True(IsCrossed(ends[0], ends[1]) && IsCrossed(ends[2], ends[3]), dimension.ToString());

            bool IsCrossed(decimal x, decimal y) => lines.Any(line => across
                ? line[0] == x && line[2] == x && Math.Min(line[1], line[3]) < y && Math.Max(line[1], line[3]) > y
                : line[1] == y && line[3] == y && Math.Min(line[0], line[2]) < x && Math.Max(line[0], line[2]) > x);
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void No_words_meet_other_words_or_a_line_or_leave_the_sheet(string name) => Assert.Empty(Draw(name).Sheet.Collisions());

    [Theory]
    [MemberData(nameof(Cards))]
    public void No_two_dimensions_say_the_same_distance(string name)
    {
        var ends = Draw(name).Sheet.Dimensions.Where(HasLine).Select(dimension =>
        {
            var n = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
            return n[1] == n[3] ? $"across {n[0]} {n[2]}" : $"down {n[1]} {n[3]}";
        }).ToArray();

        Assert.Equal(ends.Length, ends.Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_piece_and_every_mat_has_its_size_said(string name)
    {
        var (card, sheet) = Draw(name);
        var said = sheet.Dimensions.ToLookup(d => ((string)d.Attribute("data-of")!, (string)d.Attribute("data-measure")!), d => (string)d.Attribute("data-nm")!);

        Assert.Equal(card.Width.Nanometres.ToString(CultureInfo.InvariantCulture), said[("card", "width")].Single());
        Assert.All(card.Pieces, piece =>
        {
            var of = piece.Source.Row ?? piece.Name;
            var size = said[(of, "size")].SingleOrDefault();
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
        var (card, sheet) = Draw(name);

        Assert.All(sheet.Dimensions.Where(dimension => !HasLine(dimension)), dimension =>
        {
            var text = dimension.Element(Name("text"))!.Value;
            Assert.All(
                ((string)dimension.Attribute("data-nm")!).Split(' '),
                value => Assert.Contains(LengthText.WriteBare(new Position(Rational.From(Parse(value), 1)), card.Unit), text, StringComparison.Ordinal));
        });
    }

    [Fact]
    public void An_offset_says_how_far_a_piece_lies_from_the_edge_of_what_carries_it()
    {
        var (_, sheet) = Draw("bean-row");

        // The sun begins 18/16 in from the left of the card, its mat 2/16 in before it, and the field 4/16 in: 12/16 in are left.
        Assert.Equal("3/4", TextOf(sheet, "sun", "left"));
        Assert.Equal("1/2", TextOf(sheet, "sun", "top"));

        // The band ends at 76/16 in, its mat 1/16 in below, the field at 84/16 in.
        Assert.Equal("7/16", TextOf(sheet, "band", "bottom"));
    }

    [Fact]
    public void A_row_says_its_gap_once_with_how_often_it_occurs()
    {
        Assert.Equal("4 x 3/8", TextOf(Draw("plot-markers").Sheet, "markers", "gap"));
        Assert.Equal("3 x 26", TextOf(Draw("seed-packets").Sheet, "packets", "pitch"));
    }

    [Fact]
    public void Round_and_tilted_pieces_have_their_sizes_in_callouts()
    {
        Assert.Equal("⌀2", TextOf(Draw("bean-row").Sheet, "sun", "size"));
        Assert.Equal("1 1/8 x 2 1/4, 8° right", TextOf(Draw("rain-gauge").Sheet, "plant-tag", "size"));
        Assert.Equal("32 x 32, 6° right, 6° left", TextOf(Draw("seed-packets").Sheet, "packets", "size"));
    }

    [Fact]
    public void What_fills_its_parent_says_its_reveal_and_is_not_placed_by_distances()
    {
        var (_, sheet) = Draw("bean-row");

        Assert.Equal("reveal 1/8", TextOf(sheet, "ground", "reveal"));
        Assert.DoesNotContain(sheet.Dimensions, d => (string?)d.Attribute("data-of") == "ground" && HasLine(d));
    }

    [Fact]
    public void A_place_in_sevenths_of_an_inch_is_said_as_sevenths()
    {
        var card = new CardMaker(CardMaker.A2, Holding.Portrait, "Sevenths")
            .Add(PieceKind.Panel, "bed", "leaf", (10, 10, 40, 20))
            .Make();
        var seventh = new Position(Rational.From(Length.NanometresPerInch, 7));
        var moved = card.Pieces[0] with
        {
            Box = card.Pieces[0].Box.Moved(seventh, default), Outline = Trimwright.Geometry.Outline.FromBox(card.Pieces[0].Box.Moved(seventh, default)),
        };
        var sheet = new SvgSheet(SvgWriter.Write(MeasuredDrawing.Draw(card with { Pieces = [moved] })));

        // 5/8 + 1/7 = 43/56 from the left; the right is nearer to nothing.
        Assert.Equal("43/56", TextOf(sheet, "bed", "left"));
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_leader_runs_unbroken_from_a_dot_on_its_piece_where_the_card_is_not_overfull(string name)
    {
        var (_, sheet) = Draw(name);
        var callouts = sheet.Root.Elements().Where(group => (string?)group.Attribute("class") == "callout").ToArray();

        Assert.All(callouts, callout =>
        {
            var leader = Assert.Single(callout.Elements(), line => (string?)line.Attribute("class") == "leader");
            var dot = callout.Element(Name("circle"))!;
            Assert.StartsWith($"M {dot.Attribute("cx")!.Value} {dot.Attribute("cy")!.Value} L", leader.Attribute("d")!.Value, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void A_card_of_forty_pieces_still_has_room_for_all_its_words()
    {
        var maker = new CardMaker(CardMaker.A7, Holding.Portrait, "Forty beds");
        for (var i = 0; i < 40; i++)
        {
            maker.Add(
                i % 3 == 0 ? PieceKind.Circle : PieceKind.Panel, $"bed-{i}", "leaf", (2 + (i % 5 * 15), 2 + (i / 5 * 13), 11, 11), mats: [("soil", 1)]);
        }

        var sheet = new SvgSheet(SvgWriter.Write(MeasuredDrawing.Draw(maker.Make())));
        Assert.Empty(sheet.Collisions());
        Assert.Equal(40, sheet.Texts.Count(words => (string?)words.Element.Attribute("class") == "name"));
    }

    [Fact]
    public void Words_stay_clear_on_crowded_cards_of_any_kind() => CrowdedCards.Sample(
        card => Assert.Empty(new SvgSheet(SvgWriter.Write(MeasuredDrawing.Draw(card))).Collisions()), iter: 20);

    private static readonly Gen<FittedCard> CrowdedCards =
        from holding in Gen.Enum<Holding>()
        from metric in Gen.Bool
        from pieces in Gen.Select(
            Gen.OneOf(new[] { PieceKind.Panel, PieceKind.Strip, PieceKind.Circle, PieceKind.Label, PieceKind.Square, PieceKind.Tag }.Select(Gen.Const).ToArray()),
            Gen.Int[0, 60], Gen.Int[0, 60], Gen.Int[4, 40], Gen.Int[4, 40], Gen.Int[0, 2], Gen.OneOf(new[] { 0, 0, 0, 7, -12 }.Select(Gen.Const).ToArray())).Array[3, 10]
        select Crowd(holding, metric, pieces);

    private static FittedCard Crowd(Holding holding, bool metric, (PieceKind Kind, int X, int Y, int W, int H, int Mats, int Tilt)[] pieces)
    {
        var maker = new CardMaker(metric ? CardMaker.A6 : CardMaker.A7, holding, "Crowded").Add(PieceKind.Panel, "ground", "cream", (2, 2, 76, 76));
        for (var i = 0; i < pieces.Length; i++)
        {
            var (kind, x, y, w, h, mats, tilt) = pieces[i];
            var height = kind is PieceKind.Circle or PieceKind.Square ? w : h;
            maker.Add(
                kind, $"piece-{i}", "leaf", (x, y, w, height), on: i % 2 == 0 ? "ground" : null, tilt: kind == PieceKind.Panel ? 0 : tilt,
                mats: [.. Enumerable.Repeat(("soil", 1m), mats)], text: kind == PieceKind.Label ? "Thanks" : null);
        }

        return maker.Make();
    }

    private static string TextOf(SvgSheet sheet, string of, string measure) => sheet.Dimensions
        .Single(d => (string?)d.Attribute("data-of") == of && (string?)d.Attribute("data-measure") == measure).Element(Name("text"))!.Value;

    private static XName Name(string local) => XName.Get(local, "http://www.w3.org/2000/svg");

    private static bool HasLine(XElement dimension) => MeasureLine(dimension) is not null;

    private static XElement? MeasureLine(XElement dimension) =>
        dimension.Elements(Name("path")).SingleOrDefault(path => (string?)path.Attribute("class") == "measure");

    private static BigInteger Parse(string whole) => BigInteger.Parse(whole, CultureInfo.InvariantCulture);

    private static BigInteger Nanometres(decimal millimetres) => new(millimetres * 1_000_000);

    /// <summary>What should be written for a line of that many nanometres.</summary>
    private static string Written(XElement dimension, LengthUnit unit, BigInteger nanometres)
    {
        var value = LengthText.WriteBare(new Position(Rational.From(nanometres, 1)), unit);
        return dimension.Attribute("data-count") is { } count ? $"{count.Value} x {value}" : value;
    }
}

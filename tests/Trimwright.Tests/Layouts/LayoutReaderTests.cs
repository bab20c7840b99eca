using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class LayoutReaderTests
{
    private static readonly Layout BeanRow = Sample.Good(File.ReadAllText(Path.Combine(Sample.Folder(), "bean-row.json")));
    private static readonly Layout Trellis = Sample.Good(File.ReadAllText(Path.Combine(Sample.Folder(), "trellis.json")));

    private static Piece Piece(Layout layout, string name) => layout.Pieces.Single(piece => piece.Name == name);

    private static Length In(long numerator, long denominator = 1) => Length.FromInches(numerator, denominator);

    private static Length Mm(long millimetres) => Length.FromMillimetres(millimetres);

    [Fact]
    public void The_head_is_read()
    {
        Assert.Equal("Bean row thank-you", BeanRow.Title);
        Assert.Equal("A2", BeanRow.Format.Name);
        Assert.Equal(Holding.Portrait, BeanRow.Holding);
        Assert.Equal(LengthUnit.Inch, BeanRow.Unit);
        Assert.Equal(In(1, 8), BeanRow.Reveal.Value);
        Assert.Equal(Strength.Should, BeanRow.Reveal.Strength);
        Assert.Equal(("kraft", Edge.Left), (BeanRow.Base.Paper, BeanRow.Base.Fold));
        Assert.Equal(LengthUnit.Millimetre, Trellis.Unit);
        Assert.Equal(Mm(3), Trellis.Reveal.Value);
    }

    [Fact]
    public void Papers_keep_their_order_kind_tone_weight_and_thickness()
    {
        Assert.Equal(["kraft", "rows", "cream", "rust"], BeanRow.Papers.Select(paper => paper.Name));
        var kraft = BeanRow.PaperNamed("kraft");
        Assert.Equal(PaperKind.Cardstock, kraft.Kind);
        Assert.Equal("#deb887", kraft.Colour.ToString()); // burlywood in CSS Color Module Level 4
        Assert.Equal(216, kraft.Grammage);
        Assert.Equal(Length.FromNanometres(240_000), kraft.Caliper);
        var rows = BeanRow.PaperNamed("rows");
        Assert.Equal(PaperKind.Patterned, rows.Kind);
        Assert.True(rows.OneWay);
        Assert.Equal("#77aa99", rows.Colour.ToString());
        Assert.Null(rows.Caliper);
        Assert.Equal("#595959", BeanRow.PaperNamed("rust").Colour.ToString()); // 255 x 0.35 = 89.25, 89 = 0x59
    }

    [Fact]
    public void Pieces_stand_from_the_bottom_up_with_the_copies_of_a_row_where_the_row_stands()
    {
        Assert.Equal(["ground", "band", "sun", "thanks", "seeds-1", "seeds-2", "seeds-3"], BeanRow.Pieces.Select(piece => piece.Name));
        Assert.Equal(
            ["ground", "trellis", "packet", "pennant", "gauge", "beet", "leek"], Trellis.Pieces.Select(piece => piece.Name));
    }

    [Fact]
    public void A_strip_has_its_size_place_and_mats()
    {
        var band = Piece(BeanRow, "band");
        Assert.Equal((PieceKind.Strip, Axis.Across, "cream", "ground"), (band.Kind, band.Runs, band.Paper, band.On));
        Assert.Null(band.Width);
        Assert.Equal(In(11, 8), band.Height!.Value);
        Assert.Equal(CutWay.Trimmer, band.Cut);
        var span = Assert.IsType<Span>(band.Placements[0]);
        Assert.Equal((Axis.Across, null), (span.Axis, span.ShortBy));
        var bottom = Assert.IsType<FromEdge>(band.Placements[1]);
        Assert.Equal((Edge.Bottom, In(3, 4)), (bottom.Edge, bottom.Distance.Value));
        var mat = Assert.Single(band.Mats);
        Assert.Equal(("kraft", In(1, 16)), (mat.Paper, mat.Reveal!.Value));
    }

    [Fact]
    public void A_length_carries_the_strength_that_its_word_gives_it()
    {
        var sun = Piece(BeanRow, "sun");
        Assert.Equal((In(2), Strength.Must), (sun.Width!.Value, sun.Width.Strength));
        Assert.Null(sun.Height);
        Assert.Equal(CutWay.Die, sun.Cut);
        Assert.Equal(In(1, 16), sun.Lift.Foam);
        Assert.Null(Assert.Single(sun.Mats).Reveal);
        var top = sun.Placements.OfType<FromEdge>().Single();
        Assert.Equal((Edge.Top, In(1, 2), Strength.May), (top.Edge, top.Distance.Value, top.Distance.Strength));
        var centre = sun.Placements.OfType<Centred>().Single();
        Assert.Equal((Axis.Across, null), (centre.Axis, centre.On));
    }

    [Fact]
    public void Copies_in_a_row_have_their_own_names_and_tilts()
    {
        var row = Assert.Single(BeanRow.Rows);
        Assert.Equal(["seeds-1", "seeds-2", "seeds-3"], row.Pieces);
        Assert.Equal((Axis.Across, In(1, 8), null), (row.Runs, row.Gap!.Value, row.On));
        Assert.False(row.EndsLikeGaps);
        var seeds = BeanRow.Pieces.Where(piece => piece.Row == "seeds").ToList();
        Assert.Equal([-6, Rational.From(9, 2), -3], seeds.Select(piece => piece.Tilt.Degrees));
        Assert.All(seeds, piece => Assert.Equal((PieceKind.Square, In(5, 8), true), (piece.Kind, piece.Width!.Value, piece.Accent)));

        // A plain JSON number is a length in the unit of the file.
        Assert.Equal(In(5, 2), row.Placements.OfType<FromEdge>().Single().Distance.Value);
    }

    [Fact]
    public void Pieces_written_one_by_one_in_a_row_keep_their_names_and_take_its_parent()
    {
        var row = Assert.Single(Trellis.Rows);
        Assert.Equal(["beet", "leek"], row.Pieces);
        Assert.True(row.EndsLikeGaps);
        Assert.Null(row.Gap);
        Assert.Equal(("ground", "markers"), (Piece(Trellis, "beet").On, Piece(Trellis, "beet").Row));
        Assert.Equal(CutWay.Scissors, Piece(Trellis, "beet").Cut);
    }

    [Fact]
    public void The_parts_of_each_kind_are_read()
    {
        Assert.Equal(Mm(8), Piece(Trellis, "trellis").Bar!.Value);
        Assert.Equal((Edge.Right, CutWay.Scissors), (Piece(Trellis, "packet").Faces, Piece(Trellis, "packet").Cut));
        Assert.Equal("thank you", Piece(BeanRow, "thanks").Text);
        var pennant = Piece(Trellis, "pennant");
        Assert.Equal((TailKind.Fishtail, Mm(8), Mm(2)), (pennant.Tail!.Kind, pennant.Tail.Depth!.Value, pennant.Tail.Taper!.Value));
        Assert.Equal(Edge.Top, pennant.HangsFrom);
        var gauge = Piece(Trellis, "gauge");
        Assert.Equal(Rational.From(15, 2), gauge.Tilt.Degrees);
        Assert.True(gauge.MayHangOver);
    }

    [Fact]
    public void An_overlap_is_a_negative_gap()
    {
        var beside = Piece(Trellis, "gauge").Placements.OfType<Beside>().Single();
        Assert.Equal(("packet", Edge.Right, Mm(-5)), (beside.Other, beside.Side, beside.Gap!.Value));
    }

    [Fact]
    public void A_corner_is_two_distances_by_default_the_reveal_itself()
    {
        var inset = Piece(Trellis, "trellis").Placements.Cast<FromEdge>().ToDictionary(place => place.Edge, place => place.Distance.Value);
        Assert.Equal(new() { [Edge.Left] = Mm(6), [Edge.Top] = Mm(6) }, inset);

        var layout = Sample.Good(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": "bottom right", "inset-down": 1 } }"""));
        var both = layout.Pieces[0].Placements.Cast<FromEdge>().ToDictionary(place => place.Edge, place => place.Distance);
        Assert.Same(layout.Reveal, both[Edge.Right]);
        Assert.Equal(In(1), both[Edge.Bottom].Value);
    }

    [Fact]
    public void Centred_on_the_card_names_the_card_only_where_the_parent_is_another()
    {
        Assert.All(Piece(Trellis, "packet").Placements.Cast<Centred>(), centred => Assert.Equal("card", centred.On));
        var layout = Sample.Good(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "center": "both", "center-on": "card" } }"""));
        Assert.All(layout.Pieces[0].Placements.Cast<Centred>(), centred => Assert.Null(centred.On));
    }

    [Fact]
    public void A_span_may_say_that_it_is_centred_and_be_centred_on_another_piece_the_other_way()
    {
        var layout = Sample.Good(Sample.With("""
            { "name": "a", "kind": "panel", "paper": "p", "place": { "span": "across", "center": "both" } },
            { "name": "b", "kind": "panel", "paper": "p", "place": { "span": "across", "center": "up-and-down", "center-on": "a" } }
            """));
        Assert.Equal((Axis.UpDown, "a"), layout.Pieces[1].Placements.OfType<Centred>().Select(centred => (centred.Axis, centred.On)).Single());
        Assert.Equal(3, layout.Pieces[0].Placements.Count);
    }

    [Theory]
    [InlineData("\"format\": \"A2\", \"held\": \"portrait\"", Holding.Portrait, Edge.Left)]
    [InlineData("\"format\": \"A2\", \"held\": \"landscape\"", Holding.Landscape, Edge.Top)]
    [InlineData("\"format\": \"4 x 6 in\"", Holding.Portrait, Edge.Left)]
    [InlineData("\"format\": \"6 x 4 in\"", Holding.Landscape, Edge.Top)]
    [InlineData("\"format\": \"6 x 4\", \"held\": \"portrait\"", Holding.Portrait, Edge.Left)]
    [InlineData("\"format\": \"square 4 1/2\"", Holding.Portrait, Edge.Left)]
    [InlineData("\"format\": \"square 4 1/2\", \"held\": \"landscape\"", Holding.Landscape, Edge.Left)]
    public void The_fold_lies_along_the_longer_side_as_held(string head, Holding holding, Edge fold)
    {
        var layout = Sample.Good($$"""
            { "title": "t", {{head}}, "units": "in", "base": { "paper": "p" }, "papers": { "p": {} },
              "pieces": [ { "name": "a", "kind": "panel", "paper": "p" } ] }
            """);
        Assert.Equal((holding, fold), (layout.Holding, layout.Base.Fold));
    }

    [Theory]
    [InlineData("in", 1, 8)]
    [InlineData("mm", 15, 127)] // 3 mm
    public void A_layout_that_names_no_reveal_has_an_eighth_of_an_inch_or_three_millimetres(string units, long numerator, long denominator)
    {
        var layout = Sample.Good($$"""
            { "title": "t", "format": "DL", "held": "portrait", "units": "{{units}}", "base": { "paper": "p" }, "papers": { "p": {} },
              "pieces": [ { "name": "a", "kind": "panel", "paper": "p" } ] }
            """);
        Assert.Equal(Rational.From(numerator, denominator), layout.Reveal.Value / In(1));
    }

    [Theory]
    [InlineData("", Edge.Top)]
    [InlineData(", \"place\": { \"hang-from\": \"right\" }", Edge.Right)]
    [InlineData(", \"hangs-from\": \"bottom\"", Edge.Bottom)]
    public void A_banner_hangs_from_where_its_place_says_or_else_from_the_top(string rest, Edge edge)
    {
        var layout = Sample.Good(Sample.With($$"""{ "name": "a", "kind": "banner", "paper": "p"{{rest}} }"""));
        Assert.Equal(edge, layout.Pieces[0].HangsFrom);
        Assert.Equal(TailKind.Straight, layout.Pieces[0].Tail!.Kind);
    }

    [Fact]
    public void Banners_in_a_row_hang_from_where_the_row_hangs_from()
    {
        var layout = Sample.Good(Sample.With("""
            { "row": "flags", "runs": "up-and-down", "copies": 2, "of": { "kind": "banner", "paper": "p" }, "place": { "hang-from": "left" } }
            """));
        Assert.All(layout.Pieces, piece => Assert.Equal(Edge.Left, piece.HangsFrom));
    }

    [Fact]
    public void A_parent_may_be_declared_later_and_may_be_a_row()
    {
        var layout = Sample.Good(Sample.With("""
            { "name": "a", "kind": "panel", "paper": "p", "on": "b" }, { "name": "b", "kind": "panel", "paper": "p", "on": "r" },
            { "row": "r", "runs": "across", "copies": 2, "of": { "kind": "panel", "paper": "p" }, "on": "card" }
            """));
        Assert.Equal(["b", "r", null, null], layout.Pieces.Select(piece => piece.On));
    }

    [Fact]
    public void Every_value_knows_its_line_and_column_in_characters_even_behind_wide_ones_and_a_byte_order_mark()
    {
        const string text = "\uFEFF{ \"title\": \"é🌱\", \"format\": \"A2\",\r\n\"held\": \"portrait\",\r\"units\": \"in\",\n"
            + "/* 🌱 */ \"base\": { \"paper\": \"p\" }, \"papers\": { \"p\": {} },\n\t\"pieces\": [ { \"name\": \"a\", \"kind\": \"panel\", \"paper\": \"p\", \"width\": 2 } ] }";
        var layout = Sample.Good(text);
        Assert.Equal(new("test.json", 4, 18, 1), layout.Base.Source);
        Assert.Equal(new("test.json", 5, 24, 3), layout.Pieces[0].Source);
        Assert.Equal(new("test.json", 5, 69, 1), layout.Pieces[0].Width!.Place);
    }

    [Fact]
    public void Exact_decimals_stay_exact()
    {
        // 0.1 has no exact double; 0.1 in is 2.54 mm to the nanometre.
        var layout = Sample.Good(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p", "width": 0.1, "tilt": 0.1 }"""));
        Assert.Equal(2_540_000, layout.Pieces[0].Width!.Value.Nanometres);
        Assert.Equal(Rational.From(1, 10), layout.Pieces[0].Tilt.Degrees);
    }

    [Fact]
    public void Five_thousand_pieces_are_read()
    {
        var layout = Sample.Good(Sample.With("""{ "row": "r", "runs": "across", "copies": 5000, "of": { "kind": "panel", "paper": "p" } }"""));
        Assert.Equal(LayoutReader.MostPieces, layout.Pieces.Count);
        Assert.Equal("r-5000", layout.Pieces[^1].Name);
    }
}

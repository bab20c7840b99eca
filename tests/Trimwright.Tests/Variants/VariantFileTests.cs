using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Trimming;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Variants;

/// <summary>A layout file of a variant is the maker's own file with what differs changed, and fits to the same pieces in the same places.</summary>
public class VariantFileTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    // On the format of the layout and on another, to which measures are carried, but not the layout's reveal.
    [Theory]
    [MemberData(nameof(Demos))]
    public void Every_variant_of_every_demo_is_written_read_and_fitted_to_the_same_card(string demo)
    {
        var (content, layout) = (File.ReadAllBytes(Repository.Path("layouts", demo + ".json")), Demo(demo));
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 200).Found.Select(variant => variant.Card?.Layout);
        var mirrored = VariantFits.Mirrored(layout, layout.Format, layout.Holding, Drawer.Default).Select(variant => variant.Card?.Layout);
        foreach (var variant in found.Concat(mirrored).OfType<Layout>())
        {
            var again = ReadBack(demo, content, layout, variant);
            Assert.Equal(Told(Fit(variant)), Told(Fit(again)));
            Assert.Equal(Told(TryFit(variant, "A7", Holding.Landscape).Card), Told(TryFit(again, "A7", Holding.Landscape).Card));
        }
    }

    // Places, rows and rules by chance; each layout mirrored in each way, and then each accent moved to a spot by chance.
    [Fact]
    public void Random_layouts_mirrored_and_moved_are_written_read_and_fitted_to_the_same_card()
    {
        var seed = 20261u;
        int Next(int below)
        {
            seed = unchecked((seed * 1664525) + 1013904223);
            return (int)(seed >> 16) % below;
        }

        string Of(params string[] choices) => choices[Next(choices.Length)];
        string Wish() => Of("\"1/4\"", "\"about 1/2\"", "\"exactly 3/8\"", "1", "\"reveal\"");
        string Inset() => Of("\"1/4\"", "\"about 1/2\"", "0.5");
        string Place() => Of(
            $"\"from-left\": {Wish()}, \"from-top\": {Wish()}", $"\"from-bottom\": {Wish()}, \"from-right\": {Wish()}", $"\"corner\": \"{Of("top", "bottom")} {Of("left", "right")}\"",
            $"\"inset-down\": {Inset()}, \"corner\": \"top left\"", $"\"corner\": \"bottom right\", \"inset\": {Inset()}", "\"center\": \"both\"",
            $"\"center\": \"across\", \"from-top\": {Wish()}", $"\"from-right\": {Wish()}, \"center\": \"up-and-down\"", $"\"hang-from\": \"top\", \"from-left\": {Wish()}",
            "\"hang-from\": \"left\", \"center\": \"up-and-down\"", $"\"beside\": {{ \"piece\": \"bed\", \"side\": \"{Of("left", "right", "top", "bottom")}\", \"gap\": \"1/8\" }}");
        string Accent() => Of("", "\"accent\": true, ");
        string Tilt() => Of("", "\"tilt\": 4, ", "\"tilt\": -2.5, ");
        string Rule() => $$"""{ "{{Of("should", "may")}}": "{{Of("", "2 ")}}{{Of("sun", "flag", "row")}}.{{Of("left", "right", "top", "center-x", "center-y", "width")}} {{Of("=", "<=", ">=")}} {{Of("bed.left + ", "1/2 card.width - ", "card.bottom - 1/3 bed.top - ", "")}}{{Of("1/2 in", "exactly 3 mm", "0")}}" }""";
        var (fitted, asFile) = (0, 0);
        for (var i = 0; i < 120; i++)
        {
            var text = Layout(
                $$"""
                { "name": "bed", "kind": "panel", "paper": "p", "width": "2", "height": "2 1/2", "place": { {{Of("\"from-left\": \"1/2\", \"from-top\": 1", "\"center\": \"both\"", "\"corner\": \"bottom right\"")}} } },
                { "name": "sun", {{Accent()}}{{Tilt()}}"kind": "image", "paper": "p", "on": "{{Of("bed", "card")}}", "width": "3/4", "height": "1/2", "place": { {{Place()}} } },
                { "name": "flag", {{Accent()}}"kind": "banner", "tail": "fishtail", "paper": "p", "width": "1/2", "height": "1", "place": { {{Place()}} } },
                { "row": "row", "runs": "{{Of("across", "up-and-down")}}", "copies": 3, "gap": "1/8", "of": { "kind": "square", {{Accent()}}"paper": "p", "side": "1/4", "tilt": [ 3, 0, -5 ] }, "place": { {{Place()}} } }
                """, $"{Rule()}, {Rule()}");
            var content = Encoding.UTF8.GetBytes(text);
            if (LayoutReader.Read("test.json", content).Layout is not { } layout)
            {
                continue;
            }

            foreach (var mirror in Enum.GetValues<Mirror>())
            {
                var variant = Mirroring.Apply(layout, mirror);
                foreach (var accent in AccentSpots.Of(variant))
                {
                    variant = Next(2) == 0 ? variant : AccentSpots.Move(variant, accent.Name, accent.Others[Next(accent.Others.Count)]);
                }

                asFile++;
                var again = ReadBack("test", content, layout, variant);
                foreach (var format in (string[])["A2", "square 5 1/4 in"])
                {
                    var card = TryFit(variant, format).Card;
                    fitted += card is null ? 0 : 1;
                    Assert.Equal(Told(card), Told(TryFit(again, format).Card));
                }
            }
        }

        Assert.True(fitted > 100 && asFile > 100, $"{fitted} {asFile}");
    }

    [Theory]
    [InlineData(Mirror.LeftRight)]
    [InlineData(Mirror.TopBottom)]
    [InlineData(Mirror.HalfTurn)]
    [InlineData(Mirror.AccentsAlone)]
    public void Mirroring_the_file_of_a_mirrored_layout_gives_the_card_as_drawn(Mirror mirror)
    {
        foreach (var demo in Repository.DemoNames())
        {
            var (content, layout) = (File.ReadAllBytes(Repository.Path("layouts", demo + ".json")), Demo(demo));
            var once = ReadBack(demo, content, layout, Mirroring.Apply(layout, mirror), out var text);
            var twice = ReadBack(demo, Encoding.UTF8.GetBytes(text), once, Mirroring.Apply(once, mirror));
            Assert.Equal(Told(Fit(layout)), Told(Fit(twice)));
        }
    }

    [Theory]
    [InlineData("""{ "from-left": "1/4", "from-top": 1 }""", """{ "from-right": "1/4", "from-top": 1 }""")]
    [InlineData("""{ "from-left": "1/4", "from-right": "about 1/2", "from-top": 1 }""", """{ "from-right": "1/4", "from-left": "about 1/2", "from-top": 1 }""")]
    [InlineData("""{ /* low */ "corner":"bottom right", "inset": "1/2" }""", """{ /* low */ "corner": "bottom left", "inset": "1/2" }""")]
    [InlineData("""{ "hang-from": "left", "center": "up-and-down" }""", """{ "hang-from": "right", "center": "up-and-down" }""")]
    [InlineData("""{ "span": "across", "from-top": "1" }""", """{ "span": "across", "from-top": "1" }""")]
    public void Mirroring_changes_the_sides_in_a_place_and_nothing_else(string place, string mirrored)
    {
        var layout = Layout($$"""{ "name": "a", "kind": "panel", "paper": "p", "height": "1", "place": {{place}} } // the only one""" + "\n");
        Assert.Equal("/* mirrored */ " + layout.Replace(place, mirrored, StringComparison.Ordinal), Written(layout, read => Mirroring.Apply(read, Mirror.LeftRight)));
    }

    // Left to right: the sides, the tilt, the picture, the row and the rule; what a facing image, lettering and the height say stays.
    [Fact]
    public void Everything_that_a_mirror_turns_is_turned_in_the_file()
    {
        const string Pieces = """
            { "name": "sun", "kind": "circle", "paper": "p", "diameter": "1", "tilt": -4.50, "place": { "from-top": "1/2" } },
            { "name": "bird", "kind": "image", "paper": "p", "width": "1", "height": "1", "place": { "corner": "top right" } },
            { "name": "frog", "kind": "image", "faces": "left", "flipped": false, "paper": "p", "width": "1", "height": "1", "place": { "beside": { "piece": "sun", "side": "bottom" } } },
            { "row": "seeds", "runs": "across", "copies": 3, "gap": "1/8", "of": { "kind": "square", "side": "1/2", "paper": "p", "tilt": [ 3, 0, -5 ] }, "place": { "center": "across", "from-bottom": "1/2" } },
            { "row": "poles", "runs": "up-and-down", "gap": "1/8", "of": [
              { "name": "pole", "kind": "banner", "width": "1/2", "height": "1/2", "paper": "p", "hangs-from": "left" }
            ], "place": { "beside": [ { "piece": "bird", "side": "left", "gap": "1/8" }, { "piece": "bird", "side": "bottom" } ] } }
            """;
        const string Rule = """{ "should": "sun.left >= bird.width - exactly 1/4 in", "because": "so" }""";
        var told = Written(Layout(Pieces, Rule), layout => Mirroring.Apply(layout, Mirror.LeftRight));
        Assert.Contains("\"tilt\": 4.50,", told, StringComparison.Ordinal);
        Assert.Contains("\"kind\": \"image\", \"flipped\": true, \"paper\"", told, StringComparison.Ordinal);
        Assert.Contains("\"corner\": \"top left\"", told, StringComparison.Ordinal);
        Assert.Contains("\"faces\": \"left\", \"flipped\": false,", told, StringComparison.Ordinal);
        Assert.Contains("\"side\": \"bottom\" } } }", told, StringComparison.Ordinal);
        Assert.Contains("\"runs\": \"across\", \"starts-at\": \"right\", \"copies\"", told, StringComparison.Ordinal);
        Assert.Contains("\"tilt\": [ -3, 0, 5 ]", told, StringComparison.Ordinal);
        Assert.Contains("\"runs\": \"up-and-down\", \"gap\"", told, StringComparison.Ordinal);
        Assert.Contains("\"hangs-from\": \"right\"", told, StringComparison.Ordinal);
        Assert.Contains("[ { \"piece\": \"bird\", \"side\": \"right\", \"gap\": \"1/8\" }, { \"piece\": \"bird\", \"side\": \"bottom\" } ]", told, StringComparison.Ordinal);

        // What was its left edge from the left is now its right edge from the right.
        Assert.Contains("{ \"should\": \"sun.right + bird.width <= card.width + exactly 1/4 in\", \"because\": \"so\" }", told, StringComparison.Ordinal);
        var turned = Written(Layout(Pieces, Rule), layout => Mirroring.Apply(layout, Mirror.TopBottom));
        Assert.Contains("\"runs\": \"up-and-down\", \"gap\"", turned, StringComparison.Ordinal); // of one piece there is no order
        Assert.Contains("\"runs\": \"across\", \"copies\"", turned, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("sun.center-x = 1/2 card.width + 1/8 in", "sun.center-x = 1/2 card.width - 1/8 in")]
    [InlineData("1 in <= sun.left", "sun.right <= card.width - 1 in")]
    [InlineData("2 * sun.left + bed.left = card.right", "2 sun.right + bed.right = 2 card.width")]
    [InlineData("sun.left - bed.right >= 3 mm", "sun.right <= bed.left - 3 mm")]
    [InlineData("bed.left = sun.left", "bed.right = sun.right")]
    [InlineData("sun.left = 0", "sun.right = card.width")]
    [InlineData("sun.width = 2 bed.width", "sun.width = 2 bed.width")]
    [InlineData("sun.top = 1/3 card.height", "sun.top = 1/3 card.height")]
    public void A_rule_is_mirrored_as_a_maker_would_write_it(string rule, string mirrored)
    {
        var layout = Layout(
            """
            { "name": "sun", "kind": "circle", "paper": "p", "diameter": "1" }, { "name": "bed", "kind": "panel", "paper": "p", "width": "1", "height": "1" }
            """, $$"""{ "may": "{{rule}}" }""");
        var told = Written(layout, read => Mirroring.Apply(read, Mirror.LeftRight));
        Assert.Equal("/* mirrored */ " + layout.Replace(rule, mirrored, StringComparison.Ordinal), told);
    }

    // The accent alone is mirrored, in the panel that it lies on.
    [Fact]
    public void A_rule_of_an_accent_is_mirrored_in_what_it_lies_on()
    {
        var layout = Layout(
            """
            { "name": "bed", "kind": "panel", "paper": "p", "width": "3", "height": "3", "place": { "from-left": "1/4" } },
            { "name": "sun", "kind": "circle", "paper": "p", "on": "bed", "accent": true, "diameter": "1" }
            """, """{ "must": "sun.left = bed.left + 1/2 in" }, { "must": "sun.left = 2 in" }""");
        var told = Written(layout, read => Mirroring.Apply(read, Mirror.AccentsAlone));
        Assert.Contains("\"sun.right = bed.right - 1/2 in\"", told, StringComparison.Ordinal);
        Assert.Contains("\"sun.right = bed.left + bed.right - 2 in\"", told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "from-left": "about 1/4", "from-top": "1" }""", Edge.Right, Edge.Bottom, """{ "from-right": "about 1/4", "from-bottom": "1" }""")]
    [InlineData("""{ "from-left": "1/4", "from-top": "1" }""", Edge.Right, null, """{ "from-right": "1/4", "center": "up-and-down" }""")]
    [InlineData("""{ "corner": "top left" }""", null, Edge.Bottom, """{ "center": "across", "from-bottom": "reveal" }""")]
    [InlineData("""{ "corner": "top left" }""", Edge.Right, Edge.Bottom, """{ "corner": "bottom right" }""")]
    [InlineData("""{ "inset-down": 1, "corner": "top left", "inset-across": "1/2" }""", null, Edge.Top, """{ "center": "across", "from-top": 1 }""")]
    [InlineData("""{ "inset-down": 1, "corner": "top left", "inset-across": "1/2" }""", Edge.Right, null, """{ "from-right": "1/2", "center": "up-and-down" }""")]
    [InlineData("""{ "center": "up-and-down", "from-left": "1/4" }""", null, Edge.Top, """{ "from-top": "1/4", "center": "across" }""")]
    [InlineData("""{ "center": "up-and-down", "center-on": "card", "from-left": "1/4" }""", Edge.Left, Edge.Top, """{ "from-top": "1/4", "from-left": "1/4" }""")]
    [InlineData("""{ "center": "both" }""", Edge.Left, null, """{ "from-left": "reveal", "center": "up-and-down" }""")]
    public void A_moved_accent_keeps_its_insets_and_the_rest_of_the_file(string place, Edge? across, Edge? down, string moved)
    {
        var layout = Layout($$"""{ "name": "a", "kind": "panel", "paper": "p", "accent": true, "width": "1", "height": "1", "place": {{place}} }""");
        Assert.Equal(
            "/* mirrored */ " + layout.Replace(place, moved, StringComparison.Ordinal),
            Written(layout, read => AccentSpots.Move(read, "a", new(across, down))));
    }

    // Card A2 is 4 1/4 in wide: three seeds of 1/2 in with gaps of 1/4 in, from 1/8 in on. The reveal stays 1/8 in on A7, 5 in wide; what is plain grows by 20/17.
    [Theory]
    [InlineData("", 0, 1, 2)]
    [InlineData("\"starts-at\": \"left\",", 0, 1, 2)]
    [InlineData("\"starts-at\": \"right\",", 2, 1, 0)]
    public void A_row_may_start_at_its_end_and_an_edge_may_lie_by_the_reveal(string starts, params int[] order)
    {
        var layout = Read(Layout($$"""
            { "row": "seeds", "runs": "across", {{starts}} "copies": 3, "gap": "exactly 1/4", "of": { "kind": "square", "paper": "p", "side": "exactly 1/2" },
              "place": { "from-left": "reveal", "from-top": "1" } }
            """));
        var card = Fit(layout);
        Assert.Equal(
            order.Select(place => (Trimwright.Measures.Length.FromInches(1, 8) + (place * Trimwright.Measures.Length.FromInches(3, 4))).Nanometres),
            Enumerable.Range(1, 3).Select(i => (long)card.PieceNamed($"seeds-{i}").Box.Left.Nanometres.Floor()));
        Assert.Equal(["seeds-1", "seeds-2", "seeds-3"], card.Pieces.Select(piece => piece.Name));
        Assert.Equal(Trimwright.Measures.Length.FromInches(1, 8).Nanometres, Fit(layout, "A7").Rows[0].Box.Left.Nanometres);
    }

    [Fact]
    public void A_picture_that_is_flipped_in_the_file_is_cut_and_drawn_as_in_a_mirror()
    {
        var text = File.ReadAllText(Repository.Path("layouts", "scarecrow.json"));
        Layout Open(string content) => LayoutReader.Read("scarecrow.json", Encoding.UTF8.GetBytes(content), picture => new(File.ReadAllBytes(Repository.Path("layouts", picture)))).Layout!;
        var (upright, flipped) = (Fit(Open(text)).PieceNamed("scarecrow"), Fit(Open(text.Replace("\"kind\": \"image\"", "\"kind\": \"image\", \"flipped\": true", StringComparison.Ordinal))).PieceNamed("scarecrow"));
        Assert.Equal(upright.Box, flipped.Box);
        static IEnumerable<(Trimwright.Measures.Position, Trimwright.Measures.Position)> Corners(FittedPiece piece, bool mirror) =>
            piece.Outline.Contours.Cast<Trimwright.Geometry.PolygonContour>().SelectMany(contour => contour.Points)
                .Select(point => (mirror ? piece.Box.Left + (piece.Box.Right - point.X) : point.X, point.Y)).Order();
        Assert.Equal(Corners(upright, true), Corners(flipped, false));
        Assert.NotEqual(Corners(upright, false), Corners(flipped, false));
    }

    [Fact]
    public void A_place_that_the_language_has_no_words_for_is_told_and_no_file_is_written()
    {
        var text = Layout(
            """
            { "name": "bed", "kind": "panel", "paper": "p", "width": "1", "height": "1", "place": { "from-right": 0, "from-top": 0 } },
            { "name": "a", "kind": "panel", "paper": "p", "accent": true, "width": "1", "height": "1",
              "place": { "from-left": "1/4", "center": "up-and-down", "center-on": "bed" } }
            """);
        var layout = Read(text);
        var written = LayoutRewriter.Write(Encoding.UTF8.GetBytes(text), layout, AccentSpots.Move(layout, "a", new(null, null)), "moved", name => name);
        Assert.Null(written.Text);
        Assert.Contains("`a` would be centred on one thing across and on another up and down", Assert.Single(written.Obstacles), StringComparison.Ordinal);
    }

    [Fact]
    public void A_rule_that_would_be_too_long_is_told_and_no_file_is_written()
    {
        // Of a piece that lies on another and is mirrored alone, each measure becomes three.
        var names = string.Join(", ", Enumerable.Range(1, 20).Select(i =>
            $$"""{ "name": "seed-{{i}}", "kind": "panel", "paper": "p", "on": "bed-{{i}}", "accent": true, "width": "1/2", "height": "1/2" }, { "name": "bed-{{i}}", "kind": "panel", "paper": "p", "width": "1", "height": "1" }"""));
        var text = Layout(names, $$"""{ "may": "{{string.Join(" + ", Enumerable.Range(1, 20).Select(i => $"seed-{i}.left"))}} = 9 in" }""");
        var layout = Read(text);
        var written = LayoutRewriter.Write(Encoding.UTF8.GetBytes(text), layout, Mirroring.Apply(layout, Mirror.AccentsAlone), "mirrored", name => name);
        Assert.Null(written.Text);
        Assert.Contains("longer than the 500 characters", Assert.Single(written.Obstacles), StringComparison.Ordinal);
    }

    [Fact]
    public void Line_ends_the_mark_of_the_bytes_and_signs_beyond_ASCII_do_no_harm()
    {
        var text = Layout("""{ "name": "a", "kind": "label", "text": "danke 🌱 \"Grüße\"", "paper": "p", "width": "1", "height": "1", "place": { "from-left": "1/4" } }""");
        var content = Encoding.UTF8.GetPreamble().Concat(Encoding.UTF8.GetBytes(text.Replace("\n", "\r\n", StringComparison.Ordinal))).ToArray();
        var layout = LayoutReader.Read("test.json", content).Layout!;
        var written = LayoutRewriter.Write(content, layout, Mirroring.Apply(layout, Mirror.LeftRight), "mirrored", name => name).Text;
        Assert.Equal("/* mirrored */ " + text.Replace("\n", "\r\n", StringComparison.Ordinal).Replace("from-left", "from-right", StringComparison.Ordinal), written);
    }

    [Fact]
    public void Files_that_the_layout_names_are_named_as_seen_from_where_the_new_file_goes()
    {
        const string Text = """
            { "$schema": "a.json", "title": "t", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "p" }, "papers": { "p": {} }, "pieces": [
              { "name": "a", "kind": "image", "paper": "p", "picture": "b.png" },
              { "name": "c", "kind": "image", "paper": "p", "picture": { "outline-within": 2, "file": "d.png" } } ] }
            """;
        var layout = Read(Text);
        var written = LayoutRewriter.Write(Encoding.UTF8.GetBytes(Text), layout, layout, "moved", name => "../" + name).Text;
        Assert.Equal("/* moved */ " + Text.Replace("a.json", "../a.json", StringComparison.Ordinal)
            .Replace("b.png", "../b.png", StringComparison.Ordinal).Replace("d.png", "../d.png", StringComparison.Ordinal), written);
    }

    [Fact]
    public void What_would_end_the_comment_leaves_a_file_that_can_be_read()
    {
        var text = Layout("""{ "name": "a", "kind": "panel", "paper": "p", "height": "1", "place": { "span": "across", "from-top": "1" } }""");
        var layout = Read(text);
        Assert.Equal("/* from * / to */ " + text, LayoutRewriter.Write(Encoding.UTF8.GetBytes(text), layout, layout, "from */ to", name => name).Text);
    }

    private static string Written(string text, Func<Layout, Layout> change)
    {
        var layout = Read(text);
        var written = LayoutRewriter.Write(Encoding.UTF8.GetBytes(text), layout, change(layout), "mirrored", name => name);
        Assert.Empty(written.Obstacles);
        Read(written.Text!);
        return written.Text!;
    }

    private static Layout ReadBack(string demo, byte[] content, Layout layout, Layout variant) => ReadBack(demo, content, layout, variant, out _);

    private static Layout ReadBack(string demo, byte[] content, Layout layout, Layout variant, out string text)
    {
        var written = LayoutRewriter.Write(content, layout, variant, "a variant", name => name);
        Assert.Empty(written.Obstacles);
        text = written.Text!;
        var reading = LayoutReader.Read(demo + ".json", Encoding.UTF8.GetBytes(text), picture => new(File.ReadAllBytes(Repository.Path("layouts", picture))));
        Assert.True(reading.Layout is not null, string.Join('\n', reading.Diagnostics.Select(DiagnosticText.OneLine)));
        return reading.Layout!;
    }

    // All that is cut, and the face, which shows what lies where and over what, and how a picture is turned.
    private static string Told(FittedCard? card) => card is null ? "does not fit" : string.Join('\n', card.Pieces.Select(piece =>
        $"{piece.Name} {piece.Box} {piece.Width} {piece.Height} {piece.Source.Tilt.Degrees} {piece.Source.Flipped} {piece.Reveal} {piece.TailDepth} {piece.TailWidth} {piece.Window} {piece.Die} "
        + string.Join(' ', piece.Mats.Select(mat => $"{mat.Box} {mat.Width} {mat.Height} {mat.Reveal}"))))
        + string.Join('\n', card.GaveWay.Select(note => $"{note.Strength} {note.Miss}"))
        + TrimCsv.Write(TrimList.FromCard(card)) + SvgWriter.Write(FaceDrawing.Draw(card));
}

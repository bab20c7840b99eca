using SkiaSharp;
using Trimwright.Balance;
using Trimwright.Diagnostics;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Images;
using Trimwright.Tests.Layouts;
using Trimwright.Trimming;
using Trimwright.Variants;
using Trimwright.Worksheets;

namespace Trimwright.Tests.Fitting;

/// <summary>Images with a picture: their shape in the fit, their outline, mats and notes.</summary>
public class PicturePieceTests
{
    // An ellipse twice as wide as it is high, and a photograph of 3 to 2 with no ground at all.
    private static readonly byte[] Bean = TestPictures.Encode(
        TestPictures.Shape(300, 200, (x, y) => Square((x - 150) / 120) + Square((y - 100) / 60) < 1), SKEncodedImageFormat.Png);

    private static readonly byte[] Plum = TestPictures.Encode(
        TestPictures.Shape(300, 200, (x, y) => Square((x - 150) / 113) + Square((y - 100) / 93) < 1), SKEncodedImageFormat.Png);

    private static readonly byte[] Photograph = TestPictures.Encode(
        TestPictures.Make(300, 200, (x, y) => ((byte)(x * 7 % 256), (byte)(y * 11 % 256), (byte)(((x * y) + x) % 256), 255)), SKEncodedImageFormat.Png);

    [Fact]
    public void A_cut_out_keeps_the_shape_of_its_outline_and_the_named_size_lies_on_the_scale()
    {
        var wide = Fit("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "2", "place": { "center": "both" } }""");
        Assert.Equal(Length.FromInches(2, 1), wide.Width);
        Assert.Equal(wide.Box.Width, wide.Box.Height * Content(wide).Aspect);

        // The ellipse is 240 x 120 pixels; its edge is found to half a pixel on each side.
        Assert.InRange(Inches(wide.Box.Height), 2 * 119 / 241.0, 2 * 121 / 239.0);

        // The blank is the next step of 1/16 in.
        Assert.Equal(Math.Ceiling(Inches(wide.Box.Height) * 16) / 16, Inches(Position.FromLength(wide.Height)), 9);
        var high = Fit("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "height": "1 1/4", "place": { "center": "both" } }""");
        Assert.Equal(Position.FromLength(Length.FromInches(5, 4)), high.Box.Height);
        Assert.Equal(high.Box.Height * Content(high).Aspect, high.Box.Width);
    }

    [Fact]
    public void Two_musts_that_contradict_the_shape_clash_with_it_and_the_clash_names_the_picture()
    {
        var reading = Sample.Read(Sample.With("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }"""), Open);
        var clash = Assert.Single(Fitter.Fit(reading.Layout!, Drawer.Default).Diagnostics);
        Assert.Contains("`bean` keeps the shape of its picture", clash.Message, StringComparison.Ordinal);
        Assert.Equal(["the width of `bean` is exactly 2 in", "the height of `bean` is exactly 2 in"], clash.Related.Select(related => related.Note));

        Assert.StartsWith("make the height of `bean` 1 in, ", clash.Remedy, StringComparison.Ordinal);
        Fit("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "exactly 2", "height": "exactly 1", "place": { "center": "both" } }""");
    }

    [Fact]
    public void Where_no_size_that_a_layout_can_say_has_the_shape_the_remedy_is_to_say_one_size_less()
    {
        const string Piece = """{ "name": "plum", "kind": "image", "paper": "p", "picture": "plum.png", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }""";
        var clash = Assert.Single(Fitter.Fit(Sample.Read(Sample.With(Piece), Open).Layout!, Drawer.Default).Diagnostics);
        Assert.Equal("take out that the height of `plum` is exactly 2 in: the height of `plum` can then be 1 73/113 in, which fits", clash.Remedy);
        Fit(Piece.Replace(", \"height\": \"exactly 2\"", "", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_two_plain_sizes_that_contradict_the_shape_one_gives_way_and_the_shape_stays()
    {
        var card = Card("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "2", "height": "2", "place": { "center": "both" } }""");
        var piece = card.PieceNamed("bean");
        Assert.Equal(piece.Box.Width, piece.Box.Height * Content(piece).Aspect);
        Assert.NotEmpty(card.GaveWay);
    }

    [Theory]
    [InlineData("2 1/8")]
    [InlineData("3")]
    [InlineData("1 15/16")]
    public void A_rectangular_picture_lies_on_the_scale_and_covers_its_piece_evenly(string width)
    {
        var piece = Fit($$"""{ "name": "photo", "kind": "image", "paper": "p", "picture": "photo.png", "cut": "trimmer", "width": "{{width}}", "place": { "center": "both" } }""");
        var sixteenth = Length.NanometresPerInch / 16;
        Assert.True((piece.Box.Height.Nanometres / sixteenth).IsWhole);
        Assert.True((piece.Box.Height.Nanometres - (piece.Box.Width.Nanometres * 2 / 3)).Abs() <= Rational.From(sixteenth, 2));
        var whole = piece.PictureBox!.Value;
        Assert.Equal(whole.Width * 2, whole.Height * 3);
        Assert.Equal(piece.Box.Centre, whole.Centre);
        Assert.True(whole.Width == piece.Box.Width ? whole.Height >= piece.Box.Height : whole.Height == piece.Box.Height && whole.Width > piece.Box.Width);
    }

    [Fact]
    public void A_photograph_cannot_be_cut_out_and_the_remedy_works()
    {
        const string Piece = """{ "name": "photo", "kind": "image", "paper": "p", "picture": "photo.png", "width": "2", "place": { "center": "both" } }""";
        var problem = Assert.Single(Sample.Read(Sample.With(Piece), Open).Diagnostics);
        Assert.Equal("E0507", problem.Code);
        Assert.Contains("`\"cut\": \"trimmer\"`", problem.Remedy, StringComparison.Ordinal);
        Assert.Empty(Sample.Read(Sample.With(Piece.Replace("\"width\"", "\"cut\": \"trimmer\", \"width\"", StringComparison.Ordinal)), Open).Diagnostics);
    }

    [Fact]
    public void The_mat_reaches_exactly_its_reveal_beyond_the_outline_on_all_four_sides_and_its_blank_holds_it()
    {
        var piece = Fit("""
            { "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "2", "mats": [ { "paper": "p", "reveal": "1/8" }, { "paper": "p", "reveal": "1/16" } ],
              "place": { "from-left": "1/4", "from-top": "1/2" } }
            """);
        Assert.Equal(piece.Box, piece.Outline.Bounds);
        Assert.Equal(piece.Box.Grown(Position.FromLength(Length.FromInches(1, 8))), piece.Mats[0].Outline.Bounds);
        Assert.Equal(piece.Box.Grown(Position.FromLength(Length.FromInches(3, 16))), piece.Mats[1].Outline.Bounds);
        Assert.All(piece.Mats, mat => Assert.True(Position.FromLength(mat.Width) >= mat.Box.Width && Position.FromLength(mat.Height) >= mat.Box.Height));

        // The border of an ellipse, in the middle of its long side: the reveal below the lowest place of the picture.
        Assert.Equal(Length.FromInches(1, 4), piece.Mats[1].Outline.Bounds.Left.ToNearestNanometre());
    }

    [Fact]
    public void A_flipped_picture_has_the_mirrored_outline_and_the_mirrored_mat()
    {
        var pear = TestPictures.Encode(TestPictures.Shape(200, 200, (x, y) => x > 20 && y > 20 && x + (y / 2) < 180), SKEncodedImageFormat.Png);
        var layout = Sample.Read(Sample.With("""
            { "name": "pear", "kind": "image", "paper": "p", "picture": "pear.png", "width": "2", "mats": [ { "paper": "p", "reveal": "1/8" } ], "place": { "from-left": "1/4", "from-top": "1/2" } }
            """), _ => new(pear)).Layout!;
        var drawn = FitHelper.Fit(layout).PieceNamed("pear");
        var flipped = FitHelper.Fit(Mirroring.Apply(layout, Mirror.LeftRight)).PieceNamed("pear");
        Assert.True(flipped.Source.Flipped);
        Assert.NotEqual(Places(drawn.Outline, 0), Places(flipped.Outline, 0));
        var width = Length.FromInches(17, 4).Nanometres;
        Assert.Equal(Places(drawn.Outline, 0), Places(flipped.Outline, width));
        Assert.Equal(Places(drawn.Mats[0].Outline, 0), Places(flipped.Mats[0].Outline, width));
        Assert.Contains($"print pear.png flipped left to right first, the whole picture {PicturePrint.Of(flipped, LengthUnit.Inch)!.Size}", TrimList.FromCard(FitHelper.Fit(Mirroring.Apply(layout, Mirror.LeftRight))).Lines.Single(line => line.Name == "pear").Notes);

        // The places as a set, seen from the left edge or, mirrored, from the right one.
        static List<(Rational, Rational)> Places(Outline outline, long mirroredIn) =>
        [
            .. outline.Contours.SelectMany(contour => ((PolygonContour)contour).Points)
                .Select(point => (mirroredIn == 0 ? point.X.Nanometres : mirroredIn - point.X.Nanometres, point.Y.Nanometres)).Order(),
        ];
    }

    // By hand: a square of 100 pixels that is cut out 2 in wide is printed with its clear ground of 50 pixels all round as 4 x 4 in; cut as a rectangle, the
    // 200 pixels are the 2 in. Of 201 pixels less than a half increment is trimmed off, and no ruler shows 2 1/100 in.
    [Theory]
    [InlineData(200, "scissors", "4 x 4 in")]
    [InlineData(200, "trimmer", "2 x 2 in")]
    [InlineData(201, "trimmer", "2 x ~2 1/64 in")]
    public void The_size_to_print_first_is_that_of_the_whole_picture(int high, string cut, string size)
    {
        var square = TestPictures.Encode(TestPictures.Shape(200, high, (x, y) => x is >= 50 and < 150 && y is >= 50 and < 150), SKEncodedImageFormat.Png);
        var layout = Sample.Read(Sample.With($$"""
            { "name": "bed", "kind": "image", "paper": "p", "picture": "bed.png", "cut": "{{cut}}", "width": "2", "place": { "from-left": "1/4", "from-top": "1/2" } }
            """), _ => new(square)).Layout!;
        var card = FitHelper.Fit(layout);
        Assert.Equal(size, PicturePrint.Of(card.PieceNamed("bed"), LengthUnit.Inch)!.Size);
        var list = TrimList.FromCard(card);
        Assert.Contains($"print bed.png first, the whole picture {size}", list.Lines.Single(line => line.Name == "bed").Notes);
        var told = $"print bed.png on p, the whole picture {size}, before you cut the bed";
        var page = TrimSheet.Write(list);
        Assert.InRange(page.IndexOf(told, StringComparison.Ordinal), 1, page.IndexOf("| layer |", StringComparison.Ordinal));
        Assert.Contains(PieceSheetDrawing.Draw(card).Items.OfType<DrawnGroup>().SelectMany(group => group.Items).OfType<DrawnText>(), text => text.Text.EndsWith($"print bed.png at {size} first", StringComparison.Ordinal));
        var sections = WorksheetMaker.Make(card, PaperSize.Letter).Sections.Select(section => section.Heading).ToList();
        Assert.InRange(sections.IndexOf("Print first"), 0, sections.IndexOf("What to cut") - 1);
    }

    [Fact]
    public void A_picture_that_faces_a_side_is_moved_and_not_flipped()
    {
        var layout = Sample.Read(Sample.With("""
            { "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "faces": "left", "width": "2", "place": { "from-left": "1/4", "from-top": "1/2" } }
            """), Open).Layout!;
        var mirrored = FitHelper.Fit(Mirroring.Apply(layout, Mirror.LeftRight)).PieceNamed("bean");
        Assert.False(mirrored.Source.Flipped);
        Assert.Equal(Position.FromLength(Length.FromInches(4, 1)), mirrored.Box.Right);
    }

    [Fact]
    public void A_picture_in_two_parts_keeps_both_in_its_box_and_its_mat_joins_them_where_it_is_wide_enough()
    {
        // Two discs of 80 pixels, so many pixels apart; together they are 2 in wide.
        static FittedPiece With(int gap)
        {
            var dots = TestPictures.Encode(
                TestPictures.Shape(200 + gap, 100, (x, y) => Square(x - 45) + Square(y - 50) < 1600 || Square(x - 125 - gap) + Square(y - 50) < 1600), SKEncodedImageFormat.Png);
            return FitHelper.Fit(Sample.Read(Sample.With("""
                { "name": "seeds", "kind": "image", "paper": "p", "picture": "seeds.png", "width": "2", "mats": [ { "paper": "p", "reveal": "1/8" } ], "place": { "center": "both" } }
                """), _ => new(dots)).Layout!).PieceNamed("seeds");
        }

        // 10 of 170 pixels are less than 1/8 in, which the two borders fill; 140 of 300 are nearly an inch, which nothing fills.
        var (near, far) = (With(10), With(140));
        Assert.Equal((2, 1), (near.Outline.Contours.Count, near.Mats[0].Outline.Contours.Count));
        Assert.Equal((2, 2), (far.Outline.Contours.Count, far.Mats[0].Outline.Contours.Count));
        Assert.All([near, far], piece => Assert.Equal(piece.Box, piece.Outline.Bounds));
    }

    [Fact]
    public void Copies_in_a_row_share_the_picture_and_its_shape()
    {
        var opened = new List<string>();
        var reading = Sample.Read(
            Sample.With("""{ "row": "beans", "runs": "across", "copies": 3, "gap": "1/8", "of": { "kind": "image", "paper": "p", "picture": "bean.png", "width": "1" }, "place": { "center": "both" } }"""),
            name =>
            {
                opened.Add(name);
                return Open(name);
            });
        var card = FitHelper.Fit(reading.Layout!);
        Assert.Equal(["bean.png"], opened);
        Assert.Single(card.Pieces.Select(piece => (piece.Width, piece.Height)).Distinct());
        Assert.Equal(3, TrimList.FromCard(card).Lines.Single(line => line.Shape == "image").Count);
    }

    [Fact]
    public void Pieces_of_one_size_with_different_pictures_are_not_one_line_of_the_trim_list()
    {
        var card = Card("""
            { "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "2", "place": { "center": "across", "from-top": "1/2" } },
            { "name": "pea", "kind": "image", "paper": "p", "picture": "pea.png", "width": "2", "place": { "center": "across", "from-bottom": "1/2" } }
            """);
        Assert.Equal(2, TrimList.FromCard(card).Lines.Count(line => line.Shape == "image"));
    }

    [Fact]
    public void All_that_is_wrong_with_pictures_is_said_at_once_and_once()
    {
        var diagnostics = Sample.Read(Sample.With("""
            { "name": "a", "kind": "image", "paper": "p", "picture": "lost.png" },
            { "name": "b", "kind": "image", "paper": "p", "picture": { "file": "lost.png", "outline-within": 17 } },
            { "name": "c", "kind": "image", "paper": "p", "picture": { "outline-within": "wide", "fuzz": 3 } },
            { "name": "d", "kind": "image", "paper": "p", "picture": 3 },
            { "name": "e", "kind": "image", "paper": "p", "picture": " " },
            { "name": "f", "kind": "panel", "paper": "p", "picture": "bean.png" },
            { "name": "g", "kind": "image", "paper": "p", "picture": "bean.png", "faces": "up" }
            """), Open).Diagnostics;
        Assert.Equal(
            ["E0226 3", "E0202 4", "E0107 5", "E0108 5", "E0109 5", "E0109 6", "E0114 7", "E0211 8", "E0110 9"],
            diagnostics.Select(diagnostic => $"{diagnostic.Code} {diagnostic.Place.Line}").Order(Comparer<string>.Create((a, b) =>
                string.CompareOrdinal(a[6..], b[6..]) is var line and not 0 ? line : string.CompareOrdinal(a, b))));
    }

    [Fact]
    public void The_weight_of_a_disc_lies_in_its_middle()
    {
        // A black disc of 2 in on a white card, its middle 1 1/4 in from the left edge and 1 1/2 in from the top one. A disc weighs as much on
        // either side of its middle, so the centre of weight is known without summing.
        var disc = TestPictures.Encode(TestPictures.Shape(400, 400, (x, y) => Square(x - 200) + Square(y - 200) < 180 * 180, tone: 0), SKEncodedImageFormat.Png);
        var layout = Sample.Read(Sample.With("""
            { "name": "disc", "kind": "image", "paper": "p", "picture": "disc.png", "width": "2", "place": { "from-left": "1/4", "from-top": "1/2" } }
            """), _ => new(disc)).Layout!;
        var card = FitHelper.Fit(layout);
        var weight = FaceWeight.Of(card, FacePictures.Of(layout))!.Whole;
        Assert.Equal(1.25 / 4.25, Double(weight.CentreX), 3);
        Assert.Equal(1.5 / 5.5, Double(weight.CentreY), 3);
        Assert.Equal(Math.PI / (4.25 * 5.5), Double(weight.Heaviness), 2);
    }

    [Fact]
    public void A_layout_read_without_a_way_to_open_files_still_fits()
    {
        var layout = Sample.Good(Sample.With("""{ "name": "bean", "kind": "image", "paper": "p", "picture": "bean.png", "width": "2", "height": "1", "place": { "center": "both" } }"""));
        Assert.Equal(Outline.FromBox(FitHelper.Fit(layout).Pieces[0].Box).Bounds, FitHelper.Fit(layout).Pieces[0].Outline.Bounds);
    }

    // By letters, by folder, by ending; what is no picture is never meant.
    [Theory]
    [InlineData("robn.png", "did you mean `robin.png`?")]
    [InlineData("Wren.png", "did you mean `pictures/wren.png`?")]
    [InlineData("photos/wern.png", "did you mean `pictures/wren.png`?")]
    [InlineData("robin.jpeg", "did you mean `robin.png`?")]
    [InlineData("notes.png", "name it as seen from the folder of the layout")]
    [InlineData("thrush.png", "name it as seen from the folder of the layout")]
    public void A_picture_that_is_not_there_is_told_with_the_one_that_is_meant(string name, string remedy)
    {
        var others = PictureFile.NotThere with { Others = ["notes.txt", "robin.png", "pictures/wren.png"] };
        var told = Assert.Single(Sample.Read(
            Sample.With($$"""{ "name": "a", "kind": "image", "paper": "p", "picture": "{{name}}", "width": "2" }"""), _ => others).Diagnostics);
        Assert.Equal(("E0226", remedy), (told.Code, told.Remedy));
    }

    [Fact]
    public void Of_a_folder_a_picture_in_it_is_named()
    {
        var folder = new PictureFile(null, "it is a folder") { Others = ["pictures/notes.txt", "pictures/wren.png"] };
        var told = Assert.Single(Sample.Read(Sample.With("""{ "name": "a", "kind": "image", "paper": "p", "picture": "pictures", "width": "2" }"""), _ => folder).Diagnostics);
        Assert.Equal(("E0227", "name a picture in it, such as `pictures/wren.png`"), (told.Code, told.Remedy));
    }

    private static PictureFile Open(string name) => name switch
    {
        "bean.png" or "pea.png" => new(Bean),
        "plum.png" => new(Plum),
        "photo.png" => new(Photograph),
        _ => PictureFile.NotThere,
    };

    private static FittedCard Card(string pieces)
    {
        var reading = Sample.Read(Sample.With(pieces), Open);
        Assert.True(reading.Layout is not null, Sample.Lines(reading.Diagnostics));
        return FitHelper.Fit(reading.Layout!);
    }

    private static FittedPiece Fit(string piece) => Card(piece).Pieces[0];

    private static PictureContent Content(FittedPiece piece) => piece.Source.Picture!.Content!;

    private static double Inches(Position position) => Double(position.Nanometres / Length.NanometresPerInch);

    private static double Double(Rational value) => (double)value.Numerator / (double)value.Denominator;

    private static double Square(double value) => value * value;
}

using System.Text.Json;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Trimming;

public class TrimListTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    [Theory]
    [MemberData(nameof(Demos))]
    public void Every_piece_and_every_mat_is_on_the_list_once(string demo)
    {
        var card = Fit(Demo(demo));
        var list = TrimList.FromCard(card);
        Assert.Equal(1 + card.Pieces.Count + card.Pieces.Sum(piece => piece.Mats.Count), list.PieceCount);
        Assert.Equal(Enumerable.Range(1, list.Lines.Count), list.Lines.Select(line => line.Layer));
        foreach (var piece in card.Pieces)
        {
            Assert.Contains(list.Lines, line => line.Mat == 0 && (line.Width, line.Height) == (piece.Width, piece.Height) && line.Paper == piece.Source.Paper);
        }
    }

    [Fact]
    public void Copies_of_a_row_share_a_line_and_so_do_their_mats()
    {
        var list = TrimList.FromCard(Fit(Demo("seed-swap")));
        Assert.Equal(4, list.Lines.Single(line => line.Name == "seeds-1, seeds-2, seeds-3, seeds-4").Count);
        Assert.Equal(4, list.Lines.Single(line => line.Name == "mat of seeds-1, seeds-2, seeds-3, seeds-4").Count);
    }

    [Fact]
    public void Copies_tell_each_its_own_tilt_and_lie_each_on_its_own_mat()
    {
        var line = TrimList.FromCard(Fit(Demo("seed-swap"))).Lines.Single(line => line.Name.StartsWith("seeds-1", StringComparison.Ordinal));
        Assert.Equal([-6, 5, -4, 7], line.Tilts.Select(tilt => (int)tilt.Degrees.Numerator));
        Assert.Equal("own mat", line.On);
    }

    [Fact]
    public void Pieces_cut_alike_that_lie_on_different_pieces_keep_lines_of_their_own()
    {
        var list = TrimList.FromCard(Fit(Layout("""
            { "name": "left-half", "kind": "panel", "paper": "p", "width": "2", "height": "5", "place": { "corner": "top left" } },
            { "name": "right-half", "kind": "panel", "paper": "p", "width": "2", "height": "4", "place": { "corner": "top right" } },
            { "name": "left", "kind": "panel", "paper": "p", "on": "left-half", "width": "1", "height": "1", "place": { "center": "both" } },
            { "name": "right", "kind": "panel", "paper": "p", "on": "right-half", "width": "1", "height": "1", "place": { "center": "both" } }
            """)));
        Assert.Equal("left-half", list.Lines.Single(line => line.Name == "left").On);
        Assert.Equal("right-half", list.Lines.Single(line => line.Name == "right").On);
    }

    [Fact]
    public void A_die_cut_piece_gives_its_die_and_a_blank_with_the_margin_of_the_drawer_on_every_side()
    {
        var card = Fit(Demo("trellis"));
        var line = TrimList.FromCard(card).Lines.Single(line => line.Name == "flower");
        Assert.Equal(new Die(PieceKind.Circle, line.Width, line.Width), line.Die);
        Assert.Equal(line.Width + (2 * card.Drawer.DieMargin), line.Blank!.Value.Width);
    }

    [Fact]
    public void What_carries_what_is_said_from_the_base_up()
    {
        var lines = TrimList.FromCard(Fit(Demo("bean-row"))).Lines;
        Assert.Null(lines[0].On);
        Assert.Equal("card", lines.Single(line => line.Name == "ground").On);
        Assert.Equal("ground", lines.Single(line => line.Name == "mat of band").On);
        Assert.Equal("mat of band", lines.Single(line => line.Name == "band").On);
        Assert.Equal(Length.FromInches(1, 16), lines.Single(line => line.Name == "mat of poles").Foam);
        Assert.Null(lines.Single(line => line.Name == "poles").Foam);
    }

    [Fact]
    public void The_base_line_gives_blank_score_and_grain()
    {
        var line = TrimList.FromCard(Fit(Demo("bean-row"))).Lines[0];
        Assert.Equal((Length.FromInches(17, 2), Length.FromInches(11, 2)), (line.Width, line.Height));
        Assert.Contains("score at 4 1/4 in along the 8 1/2 in side, fold at the left", line.Notes);
        Assert.Contains("grain along the fold, up and down", line.Notes);
    }

    /// <summary>RFC 4180, sections 2.1 to 2.7: CRLF, equal numbers of fields, quotes doubled inside quoted fields.</summary>
    [Theory]
    [MemberData(nameof(Demos))]
    public void The_comma_separated_list_is_as_RFC_4180_has_it(string demo)
    {
        var layout = Demo(demo);
        layout = layout with { Pieces = [.. layout.Pieces.Select(piece => piece.Text is null ? piece : piece with { Text = "say \"hi\",\r\nfriend" })] };
        var text = TrimCsv.Write(TrimList.FromCard(Fit(layout)));
        var records = ParseCsv(text);
        Assert.All(records, record => Assert.Equal(records[0].Count, record.Count));
        Assert.Equal(TrimList.FromCard(Fit(layout)).Lines.Count + 1, records.Count);
        if (layout.Pieces.Any(piece => piece.Text is not null))
        {
            Assert.Contains(records, record => record[^1].Contains("say \"hi\",\r\nfriend", StringComparison.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_JSON_form_gives_the_sizes_of_the_list_in_nanometres(string demo)
    {
        var card = Fit(Demo(demo));
        using var json = JsonDocument.Parse(CardJson.Write(card));
        var lines = json.RootElement.GetProperty("trimList").EnumerateArray().ToList();
        var list = TrimList.FromCard(card);
        Assert.Equal(list.Lines.Select(line => line.Width.Nanometres), lines.Select(line => line.GetProperty("width").GetProperty("nm").GetInt64()));
        Assert.Equal(list.Lines.Select(line => line.Height.Nanometres), lines.Select(line => line.GetProperty("height").GetProperty("nm").GetInt64()));
    }

    [Fact]
    public void A_bar_in_a_text_does_not_break_the_Markdown_table()
    {
        var layout = Demo("bean-row");
        layout = layout with { Pieces = [.. layout.Pieces.Select(piece => piece.Text is null ? piece : piece with { Text = "a|b" })] };
        var rows = TrimTable.FromList(TrimList.FromCard(Fit(layout))).ToMarkdown().TrimEnd('\n').Split('\n');
        Assert.All(rows, row => Assert.Equal(9, row.Replace("\\|", "", StringComparison.Ordinal).Count(c => c == '|')));
    }

    // A reader of its own, by the grammar of RFC 4180 section 2.
    private static List<List<string>> ParseCsv(string text)
    {
        var (records, record, field) = (new List<List<string>>(), new List<string>(), new System.Text.StringBuilder());
        for (var i = 0; i < text.Length;)
        {
            if (text[i] == '"')
            {
                for (i++; text[i] != '"' || (i + 1 < text.Length && text[i + 1] == '"'); i++)
                {
                    i += text[i] == '"' ? 1 : 0;
                    field.Append(text[i]);
                }

                i++;
            }
            else if (text[i] == ',')
            {
                record.Add(field.ToString());
                field.Clear();
                i++;
            }
            else if (text[i] == '\r' && text[i + 1] == '\n')
            {
                record.Add(field.ToString());
                field.Clear();
                records.Add(record);
                record = [];
                i += 2;
            }
            else
            {
                Assert.DoesNotContain(text[i], "\"\r\n");
                field.Append(text[i++]);
            }
        }

        Assert.Empty(record);
        return records;
    }
}

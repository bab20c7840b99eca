using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class LayoutErrorTests
{
    // Each case stands on its own line of a layout, line 3 for pieces; the error is marked by what stands between « and ».
    [Theory]
    [InlineData("E0107", "`clor`", """{ "name": "a", "kind": "panel", "paper": "p", «"clor"»: 1 }""")]
    [InlineData("E0107", "did you mean `from-left`?", """{ "name": "a", "kind": "panel", "paper": "p", "place": { «"form-left"»: 1 } }""")]
    [InlineData("E0107", "it belongs in the picture: write `\"picture\": { \"file\": \"b.png\", \"outline-within\": 2 }`", """{ "name": "a", "kind": "image", "paper": "p", "picture": "b.png", «"outline-within"»: 2 }""")]
    [InlineData("E0107", "write `\"picture\": { \"file\": \"b.png\", \"cut-enclosed-ground\": true }`", """{ "name": "a", "kind": "image", "paper": "p", "picture": { "file": "b.png" }, «"cut-enclosed-ground"»: true }""")]
    [InlineData("E0107", "it belongs in the place: write `\"place\": { \"from-left\": \"1/8\" }`", """{ "name": "a", "kind": "panel", "paper": "p", «"from-left"»: "1/8" }""")]
    [InlineData("E0107", "it belongs in the place: write `\"from-left\": \"1/8\"` in the `place` group", """{ "name": "a", "kind": "panel", "paper": "p", «"from-left"»: "1/8", "place": { "from-top": 1 } }""")]
    [InlineData("E0107", "it belongs to the piece itself: write it behind the `place` group", """{ "name": "a", "kind": "panel", "paper": "p", "place": { «"width"»: 2 } }""")]
    [InlineData("E0107", "it belongs to the piece itself: write it behind the `picture` group", """{ "name": "a", "kind": "image", "paper": "p", "picture": { "file": "b.png", «"faces"»: "left" } }""")]
    [InlineData("E0107", "`paper` is there already", """{ "name": "a", "kind": "panel", "paper": "p", "mats": [ { "paper": "p", «"papre"»: "p" } ] }""")]
    [InlineData("E0107", "did you mean `paper`?", """{ "name": "a", "kind": "panel", "paper": "p", "mats": [ { «"papre"»: "p" } ] }""")]
    [InlineData("E0107", "did you mean `name`?", """{ «"nmae"»: "a", "kind": "panel", "paper": "p" }""")]
    [InlineData("E0107", "did you mean `runs`?", """{ "name": "a", "kind": "strip", «"run"»: "across", "paper": "p" }""")]
    [InlineData("E0108", "`name`", """«{» "kind": "panel", "paper": "p" }""")]
    [InlineData("E0108", "`kind`", """«{» "name": "a", "paper": "p" }""")]
    [InlineData("E0108", "`paper`", """«{» "name": "a", "kind": "panel" }""")]
    [InlineData("E0108", "`runs`", """«{» "name": "a", "kind": "strip", "paper": "p" }""")]
    [InlineData("E0108", "`bar`", """«{» "name": "a", "kind": "frame", "paper": "p" }""")]
    [InlineData("E0108", "`text`", """«{» "name": "a", "kind": "label", "paper": "p" }""")]
    [InlineData("E0108", "`row`", """«{» "of": { "kind": "panel", "paper": "p" }, "copies": 2, "runs": "across" }""")]
    [InlineData("E0108", "`copies`", """«{» "row": "r", "of": { "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0108", "`side`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "beside": «{» "piece": "z" } } }""")]
    [InlineData("E0109", "a number", """{ "name": «5», "kind": "panel", "paper": "p" }""")]
    [InlineData("E0109", "`null`", """{ "name": "a", "kind": "panel", "paper": "p", "width": «null» }""")]
    [InlineData("E0109", "a list", """{ "name": "a", "kind": "panel", "paper": "p", "place": «[» ] }""")]
    [InlineData("E0109", "`true`", """{ "name": "a", "kind": "panel", "paper": "p", "tilt": «true» }""")]
    [InlineData("E0109", "only copies", """{ "name": "a", "kind": "panel", "paper": "p", "tilt": «[» 1 ] }""")]
    [InlineData("E0109", "`false`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": «false» } }""")]
    [InlineData("E0109", "a text", """«"a"»""")]
    [InlineData("E0110", "did you mean `circle`?", """{ "name": "a", "kind": «"cirlce"», "paper": "p" }""")]
    [InlineData("E0110", "`across` or `up-and-down`", """{ "name": "a", "kind": "strip", "runs": «"sideways"», "paper": "p" }""")]
    [InlineData("E0110", "did you mean `top left`?", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": «"top-left"» } }""")]
    [InlineData("E0111", "`furlong` is not a unit", """{ "name": "a", "kind": "panel", "paper": "p", "width": "2 «furlong»" }""")]
    [InlineData("E0111", "begin with a number", """{ "name": "a", "kind": "panel", "paper": "p", "width": «"wide"» }""")]
    [InlineData("E0111", "exactly", """{ "name": "a", "kind": "panel", "paper": "p", "width": «"1/3"» }""")]
    [InlineData("E0111", "10 m", """{ "name": "a", "kind": "panel", "paper": "p", "width": «99999999999999999999» }""")]
    [InlineData("E0111", "`e3`", """{ "name": "a", "kind": "panel", "paper": "p", "width": «1e3» }""")]
    [InlineData("E0111", "`E1`", """{ "name": "a", "kind": "panel", "paper": "p", "tilt": «1E1» }""")]
    [InlineData("E0111", "too many digits", """{ "name": "a", "kind": "panel", "paper": "p", "tilt": «1.00000000000000000001» }""")]
    [InlineData("E0114", "says nothing", """{ "name": "a", "kind": "label", "paper": "p", "text": «""» }""")]
    [InlineData("E0201", "`width` is -1 in", """{ "name": "a", "kind": "panel", "paper": "p", "width": «-1» }""")]
    [InlineData("E0201", "`diameter` is 0 in", """{ "name": "a", "kind": "circle", "paper": "p", "diameter": «0» }""")]
    [InlineData("E0201", "`reveal` is 0 mm", """{ "name": "a", "kind": "panel", "paper": "p", "mats": [ { "paper": "p", "reveal": «"0 mm"» } ] }""")]
    [InlineData("E0201", "`fill` is 0 in", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": «0» } }""")]
    [InlineData("E0201", "`short-by` is -1 in", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "span": "across", "short-by": «-1» } }""")]
    [InlineData("E0201", "`lift` is 0 in", """{ "name": "a", "kind": "panel", "paper": "p", "lift": «0» }""")]
    [InlineData("E0202", "`tilt`", """{ "name": "a", "kind": "panel", "paper": "p", "tilt": «-90» }""")]
    [InlineData("E0202", "`copies`", """{ "row": "r", "copies": «2.5», "of": { "kind": "panel", "paper": "p", "tilt": [ 1, 2, 3 ] }, "runs": "across" }""")]
    [InlineData("E0202", "`copies`", """{ "row": "r", "copies": «0», "of": { "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0203", "`exactly`", """{ "name": "a", "kind": "panel", "paper": "p", "lift": «"exactly 1/8"» }""")]
    [InlineData("E0206", "`card`", """{ "name": «"card"», "kind": "panel", "paper": "p" }""")]
    [InlineData("E0206", "`2nd`", """{ "name": «"2nd"», "kind": "panel", "paper": "p" }""")]
    [InlineData("E0206", "`a-`", """{ "name": «"a-"», "kind": "panel", "paper": "p" }""")]
    [InlineData("E0207", "`r-2`", """{ "name": "r-2", "kind": "panel", "paper": "p" }, { "row": «"r"», "copies": 2, "of": { "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0208", "add `zinc`", """{ "name": "a", "kind": "panel", "paper": «"zinc"» }""")]
    [InlineData("E0209", "did you mean `ab`?", """{ "name": "ab", "kind": "panel", "paper": "p" }, { "name": "b", "kind": "panel", "paper": "p", "on": «"aab"» }""")]
    [InlineData("E0209", "`zinc`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "center": "both", "center-on": «"zinc"» } }""")]
    [InlineData("E0209", "`zinc`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "beside": [ { "piece": «"zinc"», "side": "left" } ] } }""")]
    [InlineData("E0210", "placed on itself", """{ "name": "a", "kind": "panel", "paper": "p", "on": «"a"» }""")]
    [InlineData("E0210", "`r-1`", """{ "row": "r", "copies": 2, "on": «"r-1"», "of": { "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0211", "write `side`", """{ "name": "a", "kind": "square", "paper": "p", «"width"»: 2 }""")]
    [InlineData("E0211", "write `width` and `height`", """{ "name": "a", "kind": "oval", "paper": "p", «"diameter"»: 2 }""")]
    [InlineData("E0211", "no `tail`", """{ "name": "a", "kind": "panel", "paper": "p", «"tail"»: "pointed" }""")]
    [InlineData("E0212", "`fill`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true, «"from-left"»: 1 } }""")]
    [InlineData("E0212", "left edge", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": "top left", «"from-left"»: 1 } }""", "corner")]
    [InlineData("E0212", "top edge", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "from-top": 1, «"hang-from"»: "top" } }""")]
    [InlineData("E0212", "not both", """{ "name": "b", "kind": "panel", "paper": "p" }, { "name": "a", "kind": "panel", "paper": "p", "place": { "beside": { "piece": "b", "side": "left", "gap": 1, «"overlap"»: 1 } } }""")]
    [InlineData("E0212", "right edge", """{ "name": "b", "kind": "panel", "paper": "p" }, { "name": "a", "kind": "panel", "paper": "p", "place": { "from-right": 1, "beside": { "piece": "b", «"side"»: "left" } } }""")]
    [InlineData("E0212", "both ways", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": "top left", "inset": 1, «"inset-down"»: 1 } }""")]
    [InlineData("E0212", "list in `of`", """{ "row": "r", «"copies"»: 2, "of": [ { "name": "a", "kind": "panel", "paper": "p" } ], "runs": "across" }""")]
    [InlineData("E0212", "where both edges are", """{ "name": "b", "kind": "panel", "paper": "p" }, { "name": "a", "kind": "panel", "paper": "p", "place": { "span": "across", «"center"»: "both", "center-on": "b" } }""")]
    [InlineData("E0213", "without `span`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { «"short-by"»: 1 } }""")]
    [InlineData("E0213", "without `corner`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { «"inset-across"»: 1 } }""")]
    [InlineData("E0214", "`inset`", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": "top left", "inset": «"-1/8"» } }""")]
    [InlineData("E0215", "ends of a row", """{ "row": "r", "copies": 2, "overlap": 1, «"ends-like-gaps"»: true, "of": { "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0216", "nothing lies beside the card", """{ "name": "a", "kind": "panel", "paper": "p", "place": { "beside": { "piece": «"card"», "side": "left" } } }""")]
    [InlineData("E0217", "named after the row", """{ "row": "r", "copies": 2, "of": { «"name"»: "a", "kind": "panel", "paper": "p" }, "runs": "across" }""")]
    [InlineData("E0217", "`place` for the whole row", """{ "row": "r", "of": [ { "name": "a", "kind": "panel", "paper": "p", «"place"»: {} } ], "runs": "across" }""")]
    [InlineData("E0217", "cannot fill", """{ "row": "r", "of": [ { "name": "a", "kind": "panel", "paper": "p" } ], "runs": "across", "place": { «"fill"»: true } }""")]
    [InlineData("E0219", "the `width`, 1 in", """{ "name": "a", "kind": "banner", "paper": "p", "width": 1, "taper": «1» }""")]
    [InlineData("E0219", "the `height`, 1 in", """{ "name": "a", "kind": "banner", "paper": "p", "height": 1, "taper": «2», "hangs-from": "left" }""")]
    [InlineData("E0219", "tail-depth", """{ "name": "a", "kind": "banner", "paper": "p", "tail": "pointed", "height": 1, "tail-depth": «1» }""")]
    [InlineData("E0220", "hung from the top", """{ "name": "a", "kind": "banner", "paper": "p", «"hangs-from"»: "left", "place": { "hang-from": "top" } }""")]
    public void A_mistake_in_a_piece_gives_one_error_at_its_place(string code, string said, string marked, string? later = null)
    {
        // `beside` on a piece that is not there is wrong for another reason: give it one.
        marked = marked.Contains("\"z\"", StringComparison.Ordinal) ? marked + """, { "name": "z", "kind": "panel", "paper": "p" }""" : marked;
        ExpectOne(code, said, marked, 3, text => Sample.With(text), swapped: later is not null);
    }

    [Theory]
    [InlineData("E0104", "comma is missing", """{ "should": "a.left = b.left" } «{» "should": "a.left = b.left" }""")]
    [InlineData("E0107", "did you mean `should`?", """{ «"shuold"»: "a.left = b.left" }""")]
    [InlineData("E0108", "`must`", """«{» "because": "so" }""")]
    [InlineData("E0109", "a number", """{ "should": «5» }""")]
    [InlineData("E0109", "a text", """«"a.left = b.left"»""")]
    [InlineData("E0212", "one strength", """{ "must": "a.left = b.left", «"may"»: "a.left = b.left" }""")]
    [InlineData("E0209", "`c`", """{ "may": "a.left = 2 «c».left" }""")]
    [InlineData("E0221", "relation", """{ "may": "a.left«"» }""")]
    [InlineData("E0221", "one relation", """{ "may": "a.left = b.left «=» 2" }""")]
    [InlineData("E0221", "write `<=`", """{ "may": "a.left «<» b.left" }""")]
    [InlineData("E0221", "write `>=`", """{ "may": "a.left «=>» b.left" }""")]
    [InlineData("E0221", "space on both sides", """{ "may": "a.left «-»b.left = 0" }""")]
    [InlineData("E0221", "space on both sides", """{ "may": "a.left = 2«-» 1" }""")]
    [InlineData("E0221", "write `a.width - ...`", """{ "may": "a.«width-b».left = 0" }""")]
    [InlineData("E0221", "one and a half", """{ "may": "a.left = 1«-»1/2" }""")]
    [InlineData("E0221", "did you mean `a.width`?", """{ "may": "a.«widht» = 0" }""")]
    [InlineData("E0221", "write it like `a.width`", """{ "may": "«a» = 0" }""")]
    [InlineData("E0221", "write it like `a.width`", """{ "may": "a. «=» 0" }""")]
    [InlineData("E0221", "neither a unit nor a measure", """{ "may": "a.left = 2 «furlongs»" }""")]
    [InlineData("E0221", "missing before `=`", """{ "may": "«=» 2" }""")]
    [InlineData("E0221", "missing", """{ "may": "a.left = 2 +«"» }""")]
    [InlineData("E0221", "missing here", """{ "may": "a.left «b».left = 2" }""")]
    [InlineData("E0221", "missing here", """{ "may": "a.left = 2 in «b».left" }""")]
    [InlineData("E0221", "brackets", """{ "may": "2 * «(»a.left) = 2" }""")]
    [InlineData("E0221", "does not belong", """{ "may": "a.left «?» 2" }""")]
    [InlineData("E0221", "divided by 0", """{ "may": "a.left / «0» = 2" }""")]
    [InlineData("E0221", "below the stroke", """{ "may": "«1/0» a.left = 2" }""")]
    [InlineData("E0221", "too large", """{ "may": "1001 «a».left = 2" }""")]
    [InlineData("E0221", "too many digits", """{ "may": "«1.11111111111111111111» a.left = 2" }""")]
    [InlineData("E0221", "needs a length", """{ "may": "a.left = exactly «b».left" }""")]
    [InlineData("E0221", "for the whole rule", """{ "may": "a.left = exactly 2 «b».left" }""")]
    [InlineData("E0221", "no whole number of nanometres", """{ "may": "a.left = «1/3»" }""")]
    [InlineData("E0222", "with one another", """{ "may": "a.left * «b».left = 2" }""")]
    [InlineData("E0222", "`a.width = 2 b.width`", """{ "may": "a.left / «b».left = 2" }""")]
    [InlineData("E0222", "a length cannot be", """{ "may": "a.left = 2 in «*» 3" }""")]
    [InlineData("E0222", "leave the unit out", """{ "may": "a.left * 2 «in» = 3" }""")]
    [InlineData("E0223", "no piece", """{ "may": «"card.left = 3"» }""")]
    [InlineData("E0223", "no piece", """{ "may": «"1 = 1"» }""")]
    [InlineData("E0223", "cancel out", """{ "may": «"a.left + card.left = a.left"» }""")]
    [InlineData("E0223", "cancel out", """{ "may": «"0 a.left = 1"» }""")]
    [InlineData("E0224", "pinned", """{ "may": "a.left = «1 in» + exactly 1 in" }""")]
    public void A_mistake_in_a_rule_gives_one_error_at_its_place_within_the_text(string code, string said, string marked) =>
        ExpectOne(code, said, marked, 6, text => Sample.With(
            """{ "name": "a", "kind": "panel", "paper": "p" }, { "name": "b", "kind": "panel", "paper": "p" }""", text));

    [Fact]
    public void Where_escapes_hide_the_column_the_whole_rule_is_marked() =>
        ExpectOne("E0221", "no relation", """{ "may": «"\u0061.left < 2"» }""", 6, text => Sample.With(
            """{ "name": "a", "kind": "panel", "paper": "p" }""", text));

    [Theory]
    [InlineData("E0204", "did you mean `slimline`?", """«"slimlin"»""")]
    [InlineData("E0204", "is not a unit", "\"4 x 6 «feet»\"")]
    [InlineData("E0204", "more than 0", """«"0 x 6 in"»""")]
    [InlineData("E0204", "mean nothing", """«"exactly 4 x 6 in"»""")]
    [InlineData("E0204", "plain length", """«"square 0"»""")]
    [InlineData("E0109", "a number", "«5»")]
    public void A_mistake_in_the_format_gives_one_error_at_its_place(string code, string said, string marked) =>
        ExpectOne(code, said, marked, 1, text => Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""")
            .Replace("\"A2\"", text, StringComparison.Ordinal));

    [Theory]
    [InlineData("E0205", "`35`", """{ "tone": «"35"» }""")]
    [InlineData("E0205", "0 (white)", """{ "tone": «"101%"» }""")]
    [InlineData("E0205", "hexadecimal", """{ "tone": «"#12345"» }""")]
    [InlineData("E0205", "did you mean `ivory`?", """{ "tone": «"ivori"» }""")]
    [InlineData("E0202", "`grammage`", """{ "grammage": «0» }""")]
    [InlineData("E0109", "`grammage`", """{ "grammage": «"80 lb"» }""")]
    [InlineData("E0201", "`caliper`", """{ "caliper": «"0 mm"» }""")]
    [InlineData("E0109", "a text", "«\"ivory\"»")]
    public void A_mistake_in_a_paper_gives_one_error_at_its_place(string code, string said, string marked) =>
        ExpectOne(code, said, marked, 1, text => Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""")
            .Replace("\"p\": {}", $"\"p\": {text}", StringComparison.Ordinal));

    [Fact]
    public void A_circle_of_parents_is_reported_once_and_named_in_full()
    {
        var reading = Sample.Read(Sample.With("""
            { "name": "a", "kind": "panel", "paper": "p", "on": "b" },
            { "name": "b", "kind": "panel", "paper": "p", "on": "c" },
            { "name": "c", "kind": "panel", "paper": "p", "on": "b" }
            """));
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.Equal("`b` is inside itself: it is on `c`, `b`", diagnostic.Message);
        Assert.Equal(5, Assert.Single(diagnostic.Related).Place.Line);
    }

    [Fact]
    public void A_name_taken_points_to_both_places()
    {
        var reading = Sample.Read(Sample.With("""
            { "name": "a", "kind": "panel", "paper": "p" },
            { "row": "a", "runs": "across", "copies": 1, "of": { "kind": "panel", "paper": "p" } }
            """));
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.Equal(("E0207", 4, 3), (diagnostic.Code, diagnostic.Place.Line, Assert.Single(diagnostic.Related).Place.Line));
    }

    [Fact]
    public void All_mistakes_of_a_file_are_reported_in_one_go_in_the_order_of_the_file()
    {
        var reading = Sample.Read("""
            {
              "titel": "Bean row",
              "format": "A22",
              "units": "inches",
              "base": { "paper": "craft", "fold": "right" },
              "papers": { "kraft": { "tone": "browm" } },
              "pieces": [
                { "name": "band", "kind": "strip", "paper": "kraft", "width": "wide" },
                { "name": "band", "kind": "circle", "paper": "kraft", "width": 2 },
                { "kind": "panell", "paper": "kraft", "place": { "fill": true, "from-left": 0 } }
              ],
              "rules": [ { "must": "band.left = bnad.left" } ]
            }
            """);
        Assert.Null(reading.Layout);
        Assert.Equal(
            [
                "2 E0107", "3 E0204", "4 E0110", "5 E0208", "5 E0110", "6 E0205", "8 E0108", "8 E0111", "9 E0207", "9 E0211", "10 E0108",
                "10 E0110", "10 E0212", "12 E0209",
            ],
            reading.Diagnostics.Select(diagnostic => $"{diagnostic.Place.Line} {diagnostic.Code}"));
        Assert.All(reading.Diagnostics, diagnostic => Assert.False(string.IsNullOrEmpty(diagnostic.Remedy)));
    }

    [Fact]
    public void A_paper_misspelt_where_it_is_used_is_not_reported_as_unused_too()
    {
        var reading = Sample.Read(Sample.With("""{ "name": "a", "kind": "panel", "paper": "craem" }""")
            .Replace("\"p\": {}", "\"p\": {}, \"cream\": {}", StringComparison.Ordinal));
        Assert.Equal("E0208", Assert.Single(reading.Diagnostics).Code);
    }

    [Theory]
    [InlineData("papers")]
    [InlineData("pieces")]
    public void A_misspelt_key_of_the_layout_is_one_error_whatever_depends_on_it(string key)
    {
        var reading = Sample.Read(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""", """{ "may": "a.left = 1" }""")
            .Replace($"\"{key}\"", $"\"{key}z\"", StringComparison.Ordinal));
        Assert.Equal("E0107", Assert.Single(reading.Diagnostics).Code);
    }

    [Fact]
    public void Messages_keep_the_house_style()
    {
        var all = Directory.EnumerateFiles(Sample.Folder(), "*.json")
            .SelectMany(path => new[] { "name", "kind", "\"A", "left", "place", "}", ":" }.Select(part =>
                File.ReadAllText(path).Replace(part, part + "x", StringComparison.Ordinal)))
            .SelectMany(text => Sample.Read(text).Diagnostics).ToList();
        Assert.True(all.Count > 50);
        Assert.All(all, diagnostic =>
        {
            Assert.False(char.IsUpper(diagnostic.Message[0]), diagnostic.Message);
            Assert.False(diagnostic.Message.EndsWith('.'), diagnostic.Message);
            Assert.False(diagnostic.Remedy!.EndsWith('.') && !diagnostic.Remedy.EndsWith("...", StringComparison.Ordinal), diagnostic.Remedy);
        });
    }

    [Fact]
    public void Of_too_many_pieces_only_the_first_is_reported_and_names_not_reached_are_not()
    {
        var pieces = string.Join(",\n", Enumerable.Range(1, 5002).Select(i => $$"""{ "name": "n{{i}}", "kind": "panel", "paper": "p" }"""));
        var reading = Sample.Read(Sample.With(pieces, """{ "may": "n5002.left = 1" }"""));
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.Equal(("E0112", 5003), (diagnostic.Code, diagnostic.Place.Line));
    }

    private static void ExpectOne(string code, string said, string marked, int line, Func<string, string> frame, bool swapped = false)
    {
        var text = frame(marked);
        var lines = text.Split('\n');
        var index = Array.FindIndex(lines, content => content.Contains('«', StringComparison.Ordinal));
        Assert.Equal(line, index + 1);
        var column = lines[index].IndexOf('«', StringComparison.Ordinal) + 1;
        var length = lines[index].IndexOf('»', StringComparison.Ordinal) - column;
        var reading = LayoutReader.Read("test.json", Encoding.UTF8.GetBytes(text.Replace("«", "", StringComparison.Ordinal).Replace("»", "", StringComparison.Ordinal)));
        Assert.Null(reading.Layout);
        Assert.True(reading.Diagnostics.Count == 1, Sample.Lines(reading.Diagnostics));
        var diagnostic = reading.Diagnostics[0];
        Assert.Equal(code, diagnostic.Code);
        Assert.Contains(said, diagnostic.Message + "; " + diagnostic.Remedy, StringComparison.Ordinal);
        if (!swapped)
        {
            Assert.Equal(new SourcePlace("test.json", line, column, length), diagnostic.Place);
        }
    }
}

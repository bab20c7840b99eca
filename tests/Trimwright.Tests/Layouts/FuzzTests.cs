using System.Text;
using CsCheck;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

/// <summary>Whatever bytes come in, reading ends, without an exception, and with a layout or a reason why there is none.</summary>
public class FuzzTests
{
    private static readonly byte[][] Valid = [.. Sample.Files.Select(File.ReadAllBytes)];

    // Parts of layouts that, put in the wrong place, reach deeper than chance would.
    private static readonly string[] Scraps =
    [
        "{", "}", "[", "]", ",", ":", "\"", "\\", "\\ud800", "null", "true", "-1", "0", "1e999", "1/8", "//", "/*", "*/", "\uFEFF", "\0", "\r", "\t",
        "\"row\":", "\"of\":", "\"copies\": 99999999999,", "\"copies\": 4999,", "\"tilt\": [1],", "\"on\": \"band\",", "\"name\": \"sun\",",
        "\"place\": { \"fill\": true },", "a.left", "2 * ", " - ", "exactly ", "½", "🌱", "card", "\"kind\": \"banner\",", "4 x ", "square ", "%", "#",
    ];

    [Fact]
    public void Any_bytes_are_read_to_an_end() => Gen.Byte.Array[0, 300].Hold(Holds);

    [Fact]
    public void Any_text_that_looks_like_a_layout_is_read_to_an_end() =>
        OneOf(Scraps).Array[0, 40].Hold(scraps => Holds(Encoding.UTF8.GetBytes(string.Concat(scraps))));

    [Fact]
    public void A_good_layout_with_bytes_changed_is_read_to_an_end() =>
        Gen.Select(OneOf(Valid), Gen.Select(Gen.Int[0, 100_000], Gen.Byte).Array[1, 4]).Hold((valid, changes) =>
        {
            var content = valid.ToArray();
            foreach (var (at, value) in changes)
            {
                content[at % content.Length] = value;
            }

            return Holds(content);
        });

    [Fact]
    public void A_good_layout_with_parts_cut_out_or_put_in_is_read_to_an_end() =>
        Gen.Select(
            OneOf(Valid), Gen.Select(Gen.Int[0, 100_000], Gen.Int[0, 30], OneOf(["", .. Scraps])).Array[1, 3]).Hold((valid, changes) =>
        {
            var content = valid.ToList();
            foreach (var (at, length, scrap) in changes)
            {
                var from = at % content.Count;
                content.RemoveRange(from, Math.Min(length, content.Count - from - 1));
                content.InsertRange(from, Encoding.UTF8.GetBytes(scrap));
            }

            return Holds([.. content]);
        }, iter: 2000);

    [Fact]
    public void A_good_layout_with_one_value_replaced_is_read_to_an_end() =>
        Gen.Select(
            OneOf(Valid), Gen.Int[0, 1000],
            OneOf("null", "true", "[]", "{}", "-1", "0", "1e9", "\"\"", "\"card\"", "\"sun\"", "\"a.b\"", "[[]]", "[{}]")).Hold((valid, which, value) =>
        {
            var text = Encoding.UTF8.GetString(valid);
            var colons = Enumerable.Range(0, text.Length).Where(i => text[i] == ':' && text[i - 1] == '"').ToList();
            var at = colons[which % colons.Count] + 2;
            var end = text[at] == '"' ? text.IndexOf('"', at + 1) + 1 : text.IndexOfAny([',', '\n', '}'], at);
            return Holds(Encoding.UTF8.GetBytes(text[..at] + value + text[end..]));
        });

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static bool Holds(byte[] content)
    {
        var reading = LayoutReader.Read("f.json", content);
        var drawer = DrawerReader.Read("f.json", content);
        var lines = SourceLines.Split(new UTF8Encoding(false).GetString(content).TrimStart('\uFEFF'));
        Assert.Equal(reading.Layout is null, reading.Diagnostics.HasErrors());
        Assert.Equal(drawer.Drawer is null, drawer.Diagnostics.HasErrors());
        Assert.Equal(reading.Diagnostics, DiagnosticList.InFileOrder(reading.Diagnostics));
        foreach (var diagnostic in reading.Diagnostics)
        {
            Assert.NotEmpty(diagnostic.Message);
            Assert.NotNull(diagnostic.Remedy);
            Assert.All(diagnostic.Related.Select(related => related.Place).Append(diagnostic.Place), place =>
            {
                // Either the file as a whole, or a stretch of a line that is there; only the end of a line may be overstepped, by one.
                var inside = place.Line >= 1 && place.Line <= lines.Count && place.Column >= 1 && place.Length >= 1
                    && place.Column + place.Length <= lines[place.Line - 1].Length + 2;
                Assert.True(place.Line == 0 || inside, $"{diagnostic.Code} {place} {place.Length}");
            });
        }

        if (reading.Layout is { } layout)
        {
            var names = layout.Pieces.Select(piece => piece.Name).Concat(layout.Rows.Select(row => row.Name)).ToList();
            Assert.Equal(names.Count, names.Distinct().Count());
            Assert.All(layout.Pieces, piece => Assert.True(piece.On is null || names.Contains(piece.On)));
            Assert.All(layout.Pieces, piece => layout.PaperNamed(piece.Paper));
            Assert.All(layout.Rules, rule => Assert.Contains(rule.Terms, term => term.Of is not null));
        }

        using var writer = new StringWriter();
        DiagnosticText.Write(writer, reading.Diagnostics, new Dictionary<string, string> { ["f.json"] = Encoding.UTF8.GetString(content) });
        return true;
    }
}

using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

/// <summary>Holds the JSON Schemas in docs to the readers; an independent library, JsonSchema.Net, does the checking.</summary>
public class SchemaTests
{
    private static readonly string Docs = Path.Combine(Sample.Root(), "docs");
    private static readonly JsonSchema LayoutSchema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Docs, "layout.schema.json")));
    private static readonly JsonSchema DrawerSchema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Docs, "drawer.schema.json")));
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private static bool Accepts(JsonSchema schema, string text)
    {
        using var document = JsonDocument.Parse(text, Lenient);
        return schema.Evaluate(document.RootElement).IsValid;
    }

    public static TheoryData<string> Layouts => [.. Sample.Files, .. Demos()];

    private static IEnumerable<string> Demos()
    {
        var folder = Path.Combine(Sample.Root(), "layouts");
        return Directory.Exists(folder)
            ? Directory.EnumerateFiles(folder, "*.json", SearchOption.AllDirectories)
                .Where(path => File.ReadAllText(path).Contains("\"pieces\"", StringComparison.Ordinal)).Order(StringComparer.Ordinal)
            : [];
    }

    [Theory]
    [MemberData(nameof(Layouts))]
    public void Good_layouts_are_accepted(string path) => Assert.True(Accepts(LayoutSchema, File.ReadAllText(path)));

    [Fact]
    public void The_built_in_drawer_is_accepted() => Assert.True(Accepts(
        DrawerSchema, File.ReadAllText(Path.Combine(Sample.Root(), "src", "Trimwright", "Layouts", "drawer.json"))));

    [Theory]
    [InlineData("""{ "name": "a", "kind": "panel" }""")]
    [InlineData("""{ "kind": "panel", "paper": "p" }""")]
    [InlineData("""{ "name": "A", "kind": "panel", "paper": "p" }""")]
    [InlineData("""{ "name": "card", "kind": "panel", "paper": "p" }""")]
    [InlineData("""{ "name": "a", "kind": "panle", "paper": "p" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "colour": 1 }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "diameter": 1 }""")]
    [InlineData("""{ "name": "a", "kind": "circle", "paper": "p", "width": 1 }""")]
    [InlineData("""{ "name": "a", "kind": "strip", "paper": "p" }""")]
    [InlineData("""{ "name": "a", "kind": "frame", "paper": "p" }""")]
    [InlineData("""{ "name": "a", "kind": "label", "paper": "p" }""")]
    [InlineData("""{ "name": "a", "kind": "label", "paper": "p", "text": " " }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "wide" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "2 feet" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": 0 }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "-1/2" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "0 in" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "exactly 0/8" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "width": "1/0" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "tilt": 90 }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "tilt": [ 1 ] }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "lift": "about 1/8" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "mats": {} }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true, "from-top": 1 } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": false } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "span": "across", "from-left": 1 } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "short-by": 1 } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "corner": "top left", "inset": 1, "inset-down": 1 } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "beside": { "piece": "b" } } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "beside": { "piece": "b", "side": "left", "gap": 1, "overlap": 1 } } }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "flipped": true }""")]
    [InlineData("""{ "name": "a", "kind": "image", "paper": "p", "flipped": "yes" }""")]
    [InlineData("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "from-left": "reveals" } }""")]
    [InlineData("""{ "row": "a", "runs": "across", "starts-at": "top", "of": [ { "name": "b", "kind": "panel", "paper": "p" } ] }""")]
    [InlineData("""{ "row": "a", "runs": "up-and-down", "starts-at": "left", "of": [ { "name": "b", "kind": "panel", "paper": "p" } ] }""")]
    [InlineData("""{ "row": "a", "runs": "across", "of": [] }""")]
    [InlineData("""{ "row": "a", "runs": "across", "of": { "kind": "panel", "paper": "p" } }""")]
    [InlineData("""{ "row": "a", "runs": "across", "copies": 2.5, "of": { "kind": "panel", "paper": "p" } }""")]
    [InlineData("""{ "row": "a", "runs": "across", "copies": 2, "of": { "name": "b", "kind": "panel", "paper": "p" } }""")]
    [InlineData("""{ "row": "a", "runs": "across", "copies": 2, "of": [ { "name": "b", "kind": "panel", "paper": "p" } ] }""")]
    [InlineData("""{ "row": "a", "runs": "across", "of": [ { "name": "b", "kind": "panel", "paper": "p", "on": "c" } ] }""")]
    [InlineData("""{ "row": "a", "runs": "across", "of": [ { "name": "b", "kind": "panel", "paper": "p" } ], "place": { "fill": true } }""")]
    public void A_broken_piece_is_refused_by_the_schema_and_by_the_reader(string piece)
    {
        var text = Sample.With(piece);
        Assert.False(Accepts(LayoutSchema, text));
        Assert.Null(Sample.Read(text).Layout);
    }

    [Theory]
    [InlineData("""{ "must": "a.left" }""")]
    [InlineData("""{ "must": "a.left < 1" }""")]
    [InlineData("""{ "must": "a.left = 1 = 2" }""")]
    [InlineData("""{ "must": "a.left = 1", "may": "a.left = 1" }""")]
    [InlineData("""{ "because": "so" }""")]
    [InlineData("""{ "shall": "a.left = 1" }""")]
    public void A_broken_rule_is_refused_by_the_schema_and_by_the_reader(string rule)
    {
        var text = Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""", rule);
        Assert.False(Accepts(LayoutSchema, text));
        Assert.Null(Sample.Read(text).Layout);
    }

    [Theory]
    [InlineData("\"units\": \"in\"", "\"units\": \"cm\"")]
    [InlineData("\"title\": \"t\",", "")]
    [InlineData("\"held\": \"portrait\"", "\"held\": \"upright\"")]
    [InlineData("\"paper\": \"p\" }, \"papers\"", "\"paper\": \"p\", \"fold\": \"right\" }, \"papers\"")]
    [InlineData("\"p\": {}", "\"p\": { \"tone\": \"#1234\" }")]
    [InlineData("\"p\": {}", "\"p\": { \"grammage\": \"80 lb\" }")]
    [InlineData("\"p\": {}", "\"P\": {}")]
    [InlineData("\"title\"", "\"reveal\": 0, \"title\"")]
    public void A_broken_head_is_refused_by_the_schema_and_by_the_reader(string good, string broken)
    {
        var text = Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""");
        Assert.True(Accepts(LayoutSchema, text));
        text = text.Replace(good, broken, StringComparison.Ordinal);
        Assert.False(Accepts(LayoutSchema, text));
        Assert.Null(Sample.Read(text).Layout);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("""{ "units": "in", "die": [] }""")]
    [InlineData("""{ "units": "in", "foam": [ "thick" ] }""")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "strip", "sizes": [] } ] }""")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "oval", "sizes": [ "2" ] } ] }""")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "circle", "sizes": [ "2 x 3" ] } ] }""")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "oval", "sizes": [ "2 x 0" ] } ] }""")]
    [InlineData("""{ "units": "in", "dies": [ { "kind": "circle", "sizes": [ "0" ] } ] }""")]
    [InlineData("""{ "units": "in", "smallest-piece": "0.0 in" }""")]
    public void A_broken_drawer_is_refused_by_the_schema_and_by_the_reader(string text)
    {
        Assert.False(Accepts(DrawerSchema, text));
        Assert.Null(DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes(text)).Drawer);
    }

    [Theory]
    [InlineData("", "layout")]
    [InlineData("/properties/base", "base")]
    [InlineData("/$defs/paper", "paper")]
    [InlineData("/$defs/mat", "mat")]
    [InlineData("/$defs/row", "row")]
    [InlineData("/$defs/place", "place")]
    [InlineData("/$defs/beside", "beside")]
    [InlineData("/$defs/rule", "rule")]
    public void The_schema_has_the_keys_that_the_reader_has(string path, string group)
    {
        var keys = group switch
        {
            "layout" => LayoutKeys.Layout,
            "base" => LayoutKeys.Base,
            "paper" => LayoutKeys.Paper,
            "mat" => LayoutKeys.Mat,
            "row" => LayoutKeys.Row,
            "place" => LayoutKeys.Place,
            "beside" => LayoutKeys.Beside,
            _ => LayoutKeys.Rule,
        };
        Assert.Equal(keys.Order(StringComparer.Ordinal), KeysAt("layout.schema.json", path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_schema_has_the_keys_of_pieces_and_the_kinds_that_take_them()
    {
        var keys = KeysAt("layout.schema.json", "/$defs/pieceParts").Concat(KeysAt("layout.schema.json", "/$defs/piece"));
        Assert.Equal(LayoutKeys.Piece.Order(StringComparer.Ordinal), keys.Order(StringComparer.Ordinal));
        var takers = Node("layout.schema.json", "/$defs/pieceParts/dependentSchemas").AsObject();
        Assert.Equal(
            LayoutKeys.PieceOfSomeKinds.Select(entry => entry.Key).Order(StringComparer.Ordinal),
            takers.Select(entry => entry.Key).Order(StringComparer.Ordinal));
        Assert.All(LayoutKeys.PieceOfSomeKinds, entry => Assert.Equal(
            entry.Kinds.Select(kind => kind.ToString().ToLowerInvariant()).Order(StringComparer.Ordinal),
            takers[entry.Key]!["properties"]!["kind"]!["enum"]!.AsArray().Select(kind => kind!.GetValue<string>()).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void The_schema_of_the_drawer_has_the_keys_that_the_reader_has()
    {
        Assert.Equal(LayoutKeys.Drawer.Order(StringComparer.Ordinal), KeysAt("drawer.schema.json", "").Order(StringComparer.Ordinal));
        Assert.Equal(LayoutKeys.Die.Order(StringComparer.Ordinal), KeysAt("drawer.schema.json", "/$defs/dies").Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_key_in_the_schema_is_described()
    {
        foreach (var (file, paths) in new[]
        {
            ("layout.schema.json", new[] { "", "/properties/base", "/$defs/paper", "/$defs/mat", "/$defs/row", "/$defs/place", "/$defs/beside", "/$defs/rule",
                "/$defs/pieceParts" }),
            ("drawer.schema.json", ["", "/$defs/dies"]),
        })
        {
            Assert.All(
                paths.SelectMany(path => Node(file, path + "/properties").AsObject()).Where(entry => entry.Key != "place"),
                entry => Assert.True(entry.Value!["description"] is not null, entry.Key));
        }
    }

    [Fact]
    public void What_the_reader_takes_as_a_length_the_schema_takes_too() =>
        Gen.String[Gen.Char["01234/.- ½⅛⁄\"inmcxab"], 1, 12].Select(Gen.Bool).Hold((text, about) =>
        {
            var layout = Sample.With($$"""
                { "name": "a", "kind": "panel", "paper": "p", "hangs-over": true,
                  "place": { "from-left": {{JsonSerializer.Serialize((about ? "about " : "") + text)}} } }
                """);
            return Sample.Read(layout).Layout is null || Accepts(LayoutSchema, layout);
        }, iter: 1500);

    [Fact]
    public void What_the_reader_takes_as_a_layout_the_schema_takes_too()
    {
        var values = new[] { "true", "1", "0.5", "\"1 mm\"", "\"left\"", "\"across\"", "\"sun\"", "\"both\"", "\"die\"", "[]", "{}", "\"a.left = 1\"" };
        var texts = Sample.Files.Select(File.ReadAllText).ToArray();
        var taken = 0;
        Gen.Select(Gen.Int[0, texts.Length - 1], Gen.Int[0, 500], Gen.Int[0, values.Length - 1], Gen.Int[0, LayoutKeys.Piece.Count - 1]).Hold((file, which, value, key) =>
        {
            // A key is added to a group, or (for the first few) a value is replaced.
            var text = texts[file];
            var braces = Enumerable.Range(0, text.Length).Where(i => text[i] == '{').ToList();
            var keys = which % 2 == 0 ? LayoutKeys.Piece : LayoutKeys.Place;
            var at = braces[which % braces.Count] + 1;
            var changed = text.Insert(at, $" \"{keys[key % keys.Count]}\": {values[value]}, ");
            var isTaken = Sample.Read(changed).Layout is not null;
            Interlocked.Add(ref taken, isTaken ? 1 : 0);
            return !isTaken || Accepts(LayoutSchema, changed);
        }, iter: 8000);

        // About one in a hundred is.
        Assert.True(taken > 10, $"only {taken} of the changed layouts were taken: the test says little");
    }

    private static JsonNode Node(string file, string path) =>
        path.Split('/', StringSplitOptions.RemoveEmptyEntries).Aggregate(
            JsonNode.Parse(File.ReadAllText(Path.Combine(Docs, file)))!, (node, step) => node[step]!);

    private static IEnumerable<string> KeysAt(string file, string path) =>
        Node(file, path + "/properties").AsObject().Select(entry => entry.Key);
}

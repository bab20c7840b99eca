using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using Trimwright.Batches;

namespace Trimwright.Tests.Batches;

/// <summary>Holds docs/batch-file.md and docs/batch.schema.json to the reader; JsonSchema.Net, an independent library, does the checking.</summary>
public partial class BatchDocumentTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Repository.Path("docs", "batch.schema.json")));
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private const string Good = """
        { "title": "t", "units": "in", "papers": { "p": {}, "q": {} },
          "stock": [ { "name": "pad", "size": "6 x 6", "count": 2, "side-a": "p", "side-b": "q" } ],
          "cards": [ { "layout": "a.json", "count": 2 } ] }
        """;

    private static string Page => File.ReadAllText(Repository.Path("docs", "batch-file.md"));

    private static bool Accepts(string text)
    {
        using var document = JsonDocument.Parse(text, Lenient);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static BatchReading Read(string text) => BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text));

    [Fact]
    public void The_worked_example_is_a_batch_without_problems_and_the_schema_takes_it()
    {
        var text = Fence().Match(Page).Groups[1].Value;
        var reading = Read(text);
        Assert.Empty(reading.Diagnostics);
        Assert.Equal(4, reading.Batch!.Stock.Count);
        Assert.True(Accepts(text));
    }

    [Fact]
    public void The_demo_batches_are_accepted() => Assert.All(
        Directory.GetFiles(Repository.Path("layouts", "batches"), "*.json", SearchOption.AllDirectories), path => Assert.True(Accepts(File.ReadAllText(path)), path));

    [Fact]
    public void Every_key_is_explained() => Assert.All(
        BatchKeys.Batch.Concat(BatchKeys.Sheet).Concat(BatchKeys.Card), key => Assert.Contains($"`{key}`", Page, StringComparison.Ordinal));

    [Fact]
    public void The_schema_has_the_keys_that_the_reader_has_and_describes_each()
    {
        var root = JsonNode.Parse(File.ReadAllText(Repository.Path("docs", "batch.schema.json")))!;
        foreach (var (node, keys) in new[] { (root, BatchKeys.Batch), (root["$defs"]!["sheet"]!, BatchKeys.Sheet), (root["$defs"]!["card"]!, BatchKeys.Card) })
        {
            var properties = node["properties"]!.AsObject();
            Assert.Equal(keys.Order(StringComparer.Ordinal), properties.Select(entry => entry.Key).Order(StringComparer.Ordinal));
            Assert.All(properties, entry => Assert.NotNull(entry.Value!["description"]));
        }
    }

    [Theory]
    [InlineData("\"title\": \"t\",", "")]
    [InlineData("\"papers\": { \"p\": {}, \"q\": {} },", "")]
    [InlineData("\"units\": \"in\"", "\"units\": \"ft\"")]
    [InlineData("\"units\"", "\"stok\": [], \"units\"")]
    [InlineData("\"stock\": [", "\"stocks\": [")]
    [InlineData("\"q\": {}", "\"Q\": {}")]
    [InlineData("\"6 x 6\"", "\"6\"")]
    [InlineData("\"6 x 6\"", "\"0 x 6\"")]
    [InlineData("\"6 x 6\"", "\"6 x 0\"")]
    [InlineData("\"6 x 6\"", "\"6 x 0.0 in\"")]
    [InlineData("\"6 x 6\"", "\"0 0/8 in x 6\"")]
    [InlineData("\"6 x 6\"", "\"6/0 x 6\"")]
    [InlineData("\"side-a\": \"p\"", "\"side-a\": \"\"")]
    [InlineData("\"count\": 2, \"side-a\"", "\"count\": 0, \"side-a\"")]
    [InlineData("\"count\": 2, \"side-a\"", "\"count\": 1.5, \"side-a\"")]
    [InlineData("\"count\": 2, \"side-a\"", "\"count\": \"many\", \"side-a\"")]
    [InlineData("\"count\": 2, \"side-a\"", "\"count\": 100001, \"side-a\"")]
    [InlineData("\"side-a\": \"p\", ", "")]
    [InlineData("\"side-a\"", "\"paper\": \"p\", \"side-a\"")]
    [InlineData("\"side-a\"", "\"grain\": \"down\", \"side-a\"")]
    [InlineData("\"side-a\"", "\"true-off\": \"-1/8\", \"side-a\"")]
    [InlineData("\"side-a\"", "\"cost\": 1001, \"side-a\"")]
    [InlineData("\"side-a\"", "\"cost\": 0.125, \"side-a\"")]
    [InlineData("\"side-a\"", "\"offcut\": \"yes\", \"side-a\"")]
    [InlineData("\"layout\": \"a.json\"", "\"layout\": \" \"")]
    [InlineData("\"layout\": \"a.json\"", "\"layout\": \"a.json\", \"variant\": \" \"")]
    [InlineData("\"layout\": \"a.json\"", "\"layout\": \"a.json\", \"variant\": 2")]
    [InlineData("\"layout\": \"a.json\", \"count\": 2", "\"layout\": \"a.json\"")]
    [InlineData("\"layout\": \"a.json\", \"count\": 2", "\"layout\": \"a.json\", \"count\": 10001")]
    [InlineData("\"layout\": \"a.json\", \"count\": 2", "\"layout\": \"a.json\", \"count\": 2, \"worth\": 2")]
    [InlineData("\"layout\": \"a.json\", \"count\": 2", "\"layout\": \"a.json\", \"count\": 2, \"at-least\": 1")]
    [InlineData("\"layout\": \"a.json\", \"count\": 2", "\"layout\": \"a.json\", \"count\": 2, \"cut-from\": { \"x\": [] }")]
    [InlineData("\"cards\": [ { \"layout\": \"a.json\", \"count\": 2 } ]", "\"cards\": []")]
    [InlineData("\"title\"", "\"salvage\": \"sometimes\", \"title\"")]
    [InlineData("\"title\"", "\"glue-margin\": \"-1\", \"title\"")]
    [InlineData("\"title\"", "\"least-offcut\": \"1\", \"title\"")]
    [InlineData("\"title\"", "\"least-offcut\": \"0 x 0\", \"title\"")]
    [InlineData("\"title\"", "\"seam-overlap\": 0, \"title\"")]
    [InlineData("\"title\"", "\"seam-overlap\": \"0 in\", \"title\"")]
    [InlineData("\"title\"", "\"piecing\": 1, \"title\"")]
    [InlineData("\"title\"", "\"stock-from\": [ \" \" ], \"title\"")]
    public void A_broken_batch_is_refused_by_the_schema_and_by_the_reader(string good, string broken)
    {
        Assert.True(Accepts(Good));
        Assert.NotNull(Read(Good).Batch);
        var text = Good.Replace(good, broken, StringComparison.Ordinal);
        Assert.NotEqual(Good, text);
        Assert.False(Accepts(text));
        Assert.Null(Read(text).Batch);
    }

    [Theory]
    [InlineData("0.5 x 10")]
    [InlineData("1/2 x 0 1/2 in")]
    [InlineData("½ x 10½")]
    [InlineData("10mm × 200 mm")]
    public void A_size_of_more_than_nothing_is_taken_by_the_schema_and_by_the_reader(string size)
    {
        var text = Good.Replace("6 x 6", size, StringComparison.Ordinal);
        Assert.True(Accepts(text));
        Assert.NotNull(Read(text).Batch);
    }

    [Fact]
    public void Stock_of_other_files_is_enough_for_the_schema_and_for_the_reader()
    {
        const string text = """{ "title": "t", "units": "in", "stock-from": [ "box.json" ], "cards": [ { "layout": "a.json", "count": 2 } ] }""";
        const string box = """{ "title": "t", "units": "in", "papers": { "p": {} }, "stock": [ { "name": "pad", "size": "6 x 6", "count": 2, "paper": "p" } ] }""";
        Assert.True(Accepts(text));
        Assert.True(Accepts(box));
        Assert.NotNull(BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text), name => (name, Encoding.UTF8.GetBytes(box))).Batch);
    }

    [GeneratedRegex("^```jsonc\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();
}

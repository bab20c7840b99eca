using Trimwright.Batches;
using Trimwright.Tests.Batches;

namespace Trimwright.Tests.Worksheets;

/// <summary>Batches for worksheets: the demos, and some that are hard to set on pages. Each schedule is replayed.</summary>
internal static class BatchSamples
{
    private const string Matted = """
        { "title": "Matted", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" },
          "papers": { "kraft": {}, "dots": {}, "leaf": {} },
          "pieces": [
            { "name": "front", "kind": "panel", "paper": "dots", "width": "3 1/2", "height": "3 1/2", "place": { "center": "both" }, "mats": [ { "paper": "leaf", "reveal": "1/8" } ] },
            { "name": "sign", "kind": "panel", "paper": "leaf", "on": "front", "width": 2, "height": 2, "place": { "center": "both" } } ] }
        """;

    private const string Metric = """
        { "title": "Water butt", "format": "ISO A6", "held": "portrait", "units": "mm", "base": { "paper": "kraft" },
          "papers": { "kraft": {}, "dots": {} },
          "pieces": [
            { "name": "butt", "kind": "panel", "paper": "dots", "width": 60, "height": 80, "place": { "center": "both" } },
            { "name": "tap", "kind": "panel", "paper": "dots", "on": "butt", "width": 15, "height": 20, "place": { "center": "both" } } ] }
        """;

    /// <summary>The schedule of a sample by name.</summary>
    public static TrimSchedule Schedule(string name) => name switch
    {
        "windows" => BatchMaker.Schedule(
            BatchMaker.Text(
                """{ "name": "leaf-sheets", "size": "3 3/4 x 3 3/4", "count": 20, "paper": "leaf" }, { "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft,
                Card(4), ", \"leaf\": {}", "\"salvage\": \"always\","),
            Matted.Replace("\"width\": 2, \"height\": 2", "\"width\": 2, \"height\": \"1 1/2\"", StringComparison.Ordinal)),
        "many kinds" => BatchMaker.Schedule(BatchMaker.Text(
            string.Join(", ", Enumerable.Range(0, 30).Select(n => $$"""{ "name": "s{{n}}", "size": "5 x {{96 + (2 * n)}}/16", "count": 1, "paper": "dots" }""")) + ", " + BatchMaker.Kraft, Card(30))),
        "large sheets" => BatchMaker.Schedule(BatchMaker.Text(
            """{ "name": "roll-ends", "size": "25 x 40", "count": 9, "paper": "dots", "true-off": "1/2" }, { "name": "boards", "size": "40 x 25", "count": "enough", "paper": "kraft" }""", Card(90))),
        "millimetres" => BatchMaker.Schedule(
            """
            { "title": "Water butts", "units": "mm", "papers": { "kraft": {}, "dots": {} },
              "stock": [ { "name": "pad", "size": "148 x 210", "count": 20, "paper": "dots" }, { "name": "kraft-sheets", "size": "305 x 305", "count": "enough", "paper": "kraft" } ],
              "cards": [ { "layout": "card.json", "count": 9 }, { "layout": "card.json", "count": 3, "format": "ISO A6", "held": "landscape" } ] }
            """, Metric),
        _ => BatchMaker.Schedule(File.ReadAllText(Repository.Path("layouts", "batches", name + ".json")), open: file => (file, File.ReadAllBytes(Repository.Path("layouts", "batches", file)))),
    };

    private static string Card(int count) => $$"""{ "layout": "card.json", "count": {{count}} }""";
}

using System.Text.Json;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Benchmarks;

/// <summary>Orders of pieces to measure planning with, in sixteenths of an inch.</summary>
internal static class CuttingOrders
{
    /// <summary>Seventeen cards of six kinds of pieces: 119 pieces.</summary>
    public static readonly (string Id, int Width, int Height, int Count)[] Seventeen =
    [
        ("front", 64, 84, 17), ("mat", 60, 80, 17), ("hedge", 60, 24, 17), ("path", 64, 28, 17), ("square", 22, 22, 34), ("tag", 16, 20, 17),
    ];

    /// <summary>600 pieces of nine kinds.</summary>
    public static readonly (string Id, int Width, int Height, int Count)[] SixHundred =
    [
        ("front", 64, 84, 70), ("mat", 60, 80, 70), ("hedge", 60, 24, 70), ("path", 64, 28, 70), ("square", 22, 22, 100), ("tag", 16, 20, 70),
        ("packet", 40, 56, 50), ("trellis", 32, 96, 50), ("bean row", 12, 72, 50),
    ];

    public static readonly StockSheet Six = Sheet("6 x 6", 96, 96, null, 100);

    /// <summary>What a hand trimmer can hold, as the drawer has it if nothing else is said.</summary>
    public static readonly CuttingRules Held = new() { LeastCut = Length.FromInches(1, 2), LeastTrim = Length.FromInches(1, 8), StackLimit = 2 };

    public static CuttingJob OnSix => Job(Seventeen, [Six]);

    public static CuttingJob OnFour => Job(
        SixHundred,
        [Sheet("offcut", 96, 32, 12, 1), Sheet("6 x 6", 96, 96, 60, 100), Sheet("12 x 12", 192, 192, null, 360), Sheet("letter", 136, 176, 20, 220)]);

    /// <summary>The published one-sheet instances gcut1 to gcut12 with their optima, where the folder of them is at hand: see PublishedTests.</summary>
    public static IReadOnlyList<(string Name, CuttingJob Job, long[] Worths, long Optimum)> OneSheet()
    {
        var file = Path.Combine(Environment.GetEnvironmentVariable("TRIMWRIGHT_PUBLISHED") ?? Path.Combine(Samples.Folder(), "..", "shared", "published"), "one-sheet-optima.json");
        if (!File.Exists(file))
        {
            return [];
        }

        using var document = JsonDocument.Parse(File.ReadAllBytes(file));
        return
        [
            .. document.RootElement.GetProperty("cases").EnumerateArray()
                .Where(item => item.GetProperty("name").GetString() is { } name && name.StartsWith("gcut", StringComparison.Ordinal) && name != "gcut13")
                .Select(item =>
                {
                    var turn = item.GetProperty("turn").GetBoolean();
                    var pieces = item.GetProperty("pieces").EnumerateArray().Select(piece => piece.EnumerateArray().Select(side => side.GetInt32()).ToArray()).ToList();
                    var sheet = item.GetProperty("sheet");
                    return (
                        item.GetProperty("name").GetString()! + (turn ? " turned" : ""),
                        new CuttingJob(
                            [.. pieces.Select((piece, n) => new WantedPiece(FormattableString.Invariant($"{n}"), Length.FromMillimetres(piece[0]), Length.FromMillimetres(piece[1]), 1) { MayTurn = turn })],
                            [new("sheet", Length.FromMillimetres(sheet[0].GetInt32()), Length.FromMillimetres(sheet[1].GetInt32()), null, 1)],
                            new()),
                        pieces.Select(piece => (long)piece[2]).ToArray(),
                        item.GetProperty("optimum").GetInt64());
                }),
        ];
    }

    private static CuttingJob Job((string Id, int Width, int Height, int Count)[] pieces, IReadOnlyList<StockSheet> stock) => new(
        [.. pieces.Select(piece => new WantedPiece(piece.Id, Length.FromInches(piece.Width, 16), Length.FromInches(piece.Height, 16), piece.Count))],
        stock,
        new());

    private static StockSheet Sheet(string id, int width, int height, long? count, long cost) =>
        new(id, Length.FromInches(width, 16), Length.FromInches(height, 16), count, cost);
}

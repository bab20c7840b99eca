using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Tests.Drawing;

/// <summary>Cards of the allotment society's seed-swap day, fitted by hand. Numbers are sixteenths of an inch, or millimetres.</summary>
internal static class SampleCards
{
    public static IReadOnlyDictionary<string, Func<FittedCard>> ByName { get; } = new SortedDictionary<string, Func<FittedCard>>(StringComparer.Ordinal)
    {
        ["bean-row"] = BeanRow, ["trellis-banners"] = TrellisBanners, ["rain-gauge"] = RainGauge, ["seed-packets"] = SeedPackets,
        ["cold-frame"] = ColdFrame, ["compost"] = Compost, ["allotment-path"] = AllotmentPath, ["plot-markers"] = PlotMarkers,
        ["plain"] = Plain, ["watering-can"] = WateringCan,
    };

    /// <summary>The measured face of a card, written; for a second copy of the engine.</summary>
    public static string MeasuredSvg(string name) => SvgWriter.Write(MeasuredDrawing.Draw(ByName[name]()));

    /// <summary>A2 portrait: panel that fills, strip low across on a mat, circle on a larger circle, label.</summary>
    public static FittedCard BeanRow() => new CardMaker(CardMaker.A2, Holding.Portrait, "Bean row")
        .Add(PieceKind.Panel, "ground", "cream", (2, 2, 64, 84), reveal: 2)
        .Add(PieceKind.Panel, "field", "seeds", (4, 4, 60, 80), on: "ground", reveal: 2)
        .Add(PieceKind.Strip, "band", "leaf", (4, 60, 60, 16), on: "field", mats: [("soil", 1)], runs: Axis.Across)
        .Add(PieceKind.Circle, "sun", "marigold", (18, 14, 32, 32), on: "field", mats: [("cream", 2)], lifted: true)
        .Add(PieceKind.Circle, "bean", "beet", (24, 20, 20, 20), on: "sun")
        .Add(PieceKind.Label, "thanks", "cream", (16, 63, 36, 10), on: "band", text: "Thank you", mats: [("beet", 1)], lifted: true)
        .Make();

    /// <summary>A7 landscape: two-inch strip on the left, pair of fishtail banners in the upper right corner, picture.</summary>
    public static FittedCard TrellisBanners() => new CardMaker(CardMaker.A7, Holding.Landscape, "Trellis")
        .Add(PieceKind.Panel, "ground", "sprouts", (2, 2, 108, 76), reveal: 2)
        .Add(PieceKind.Strip, "post", "trellis", (8, 2, 32, 76), on: "ground", mats: [("cream", 2)], runs: Axis.UpDown)
        .Add(PieceKind.Banner, "long-pennant", "beet", (84, 2, 12, 40), on: "ground", tail: (TailKind.Fishtail, 6, 0))
        .Add(PieceKind.Banner, "short-pennant", "marigold", (97, 2, 10, 30), on: "ground", tail: (TailKind.Fishtail, 5, 0), mats: [("cream", 1)])
        .Add(PieceKind.Image, "seedling", "cream", (44, 16, 34, 44), on: "ground", faces: Edge.Right, mats: [("leaf", 2), ("cream", 1)], lifted: true)
        .Add(PieceKind.Label, "greeting", "cream", (58, 64, 44, 9), on: "ground", text: "Thanks for the seeds", tilt: -3)
        .Make();

    /// <summary>Square: oval, pointed banner, straight banner with taper, tag.</summary>
    public static FittedCard RainGauge() => new CardMaker(CardMaker.Square, Holding.Portrait, "Rain gauge")
        .Add(PieceKind.Panel, "sky", "trellis", (2, 2, 80, 80), reveal: 2)
        .Add(PieceKind.Oval, "pond", "leaf", (20, 46, 44, 28), on: "sky", mats: [("cream", 2)])
        .Add(PieceKind.Banner, "gauge", "cream", (12, 2, 14, 52), on: "sky", tail: (TailKind.Pointed, 7, 0))
        .Add(PieceKind.Banner, "spout", "soil", (58, 2, 16, 34), on: "sky", tail: (TailKind.Straight, 0, 4))
        .Add(PieceKind.Banner, "flag", "beet", (50, 40, 32, 10), on: "sky", hangs: Edge.Right, tail: (TailKind.Fishtail, 5, 0))
        .Add(PieceKind.Tag, "plant-tag", "marigold", (32, 10, 18, 36), on: "sky", tilt: 8, mats: [("cream", 1)], lifted: true)
        .Make();

    /// <summary>Metric A6 landscape: a row of overlapping tilted squares over a strip low across.</summary>
    public static FittedCard SeedPackets() => new CardMaker(CardMaker.A6, Holding.Landscape, "Seed packets")
        .Add(PieceKind.Panel, "ground", "cream", (3, 3, 142, 99), reveal: 3)
        .Add(PieceKind.Strip, "shelf", "soil", (3, 74, 142, 18), on: "ground", runs: Axis.Across)
        .AddRow("packets", 4, PieceKind.Square, "seeds", (17, 28, 32, 32), -6, on: "ground", tilt: 6, mats: [("leaf", 2)], alternate: true)
        .Add(PieceKind.Label, "swap", "cream", (49, 78, 50, 10), on: "shelf", text: "Seed-swap day")
        .Make();

    /// <summary>A7 portrait: frame with a window over a picture, a panel of two strips with a cover, a row of three circles.</summary>
    public static FittedCard ColdFrame() => new CardMaker(CardMaker.A7, Holding.Portrait, "Cold frame")
        .Add(PieceKind.Strip, "upper", "sprouts", (2, 2, 76, 60), runs: Axis.Across)
        .Add(PieceKind.Strip, "lower", "trellis", (2, 62, 76, 48), runs: Axis.Across)
        .Add(PieceKind.Strip, "cover", "soil", (2, 58, 76, 8), runs: Axis.Across)
        .Add(PieceKind.Image, "view", "cream", (18, 12, 44, 38), on: "upper", faces: Edge.Left)
        .Add(PieceKind.Frame, "cold-frame", "cream", (14, 8, 52, 46), on: "upper", bar: 5, lifted: true)
        .AddRow("pots", 3, PieceKind.Circle, "marigold", (10, 74, 16, 16), 6, on: "lower", mats: [("soil", 1)])
        .Add(PieceKind.Label, "thanks", "kraft", (20, 97, 40, 9), on: "lower", text: "Many thanks", mats: [("cream", 1)])
        .Make();

    /// <summary>A2 landscape: small places side by side, a narrow strip that hangs over, a tilted label, many offsets.</summary>
    public static FittedCard Compost() => new CardMaker(CardMaker.A2, Holding.Landscape, "Compost corner")
        .Add(PieceKind.Panel, "ground", "leaf", (1, 1, 86, 66), reveal: 1)
        .Add(PieceKind.Panel, "bin", "soil", (6, 20, 30, 36), on: "ground")
        .Add(PieceKind.Strip, "slat", "kraft", (6, 26, 30, 2), on: "bin", runs: Axis.Across)
        .Add(PieceKind.Strip, "slat-2", "kraft", (6, 34, 30, 2), on: "bin", runs: Axis.Across)
        .Add(PieceKind.Strip, "slat-3", "kraft", (6, 42, 30, 2), on: "bin", runs: Axis.Across)
        .Add(PieceKind.Panel, "note", "cream", (46, 6, 36, 24), on: "ground", mats: [("beet", 1)])
        .Add(PieceKind.Banner, "fork", "marigold", (70, -2, 8, 26), tail: (TailKind.Straight, 0, 0))
        .Add(PieceKind.Label, "turned", "cream", (44, 44, 36, 10), text: "It all turns to good soil", tilt: -7.5m, lifted: true)
        .Make();

    /// <summary>A7 portrait, fifteen pieces: the crowded case.</summary>
    public static FittedCard AllotmentPath() => new CardMaker(CardMaker.A7, Holding.Portrait, "The path between the plots")
        .Add(PieceKind.Panel, "ground", "cream", (2, 2, 76, 108), reveal: 2)
        .Add(PieceKind.Panel, "plots", "sprouts", (3, 3, 74, 106), on: "ground", reveal: 1)
        .Add(PieceKind.Strip, "path", "kraft", (34, 3, 12, 106), on: "plots", runs: Axis.UpDown)
        .Add(PieceKind.Panel, "plot-a", "leaf", (6, 8, 24, 20), on: "plots", mats: [("soil", 1)])
        .Add(PieceKind.Panel, "plot-b", "soil", (6, 34, 24, 16), on: "plots")
        .Add(PieceKind.Panel, "plot-c", "leaf", (6, 56, 24, 22), on: "plots")
        .Add(PieceKind.Panel, "plot-d", "soil", (50, 10, 22, 30), on: "plots")
        .Add(PieceKind.Panel, "plot-e", "leaf", (50, 46, 22, 12), on: "plots", mats: [("cream", 1)])
        .Add(PieceKind.Square, "shed", "beet", (52, 64, 18, 18), on: "plots", mats: [("cream", 1)], lifted: true)
        .Add(PieceKind.Circle, "butt", "trellis", (36, 44, 8, 8), on: "path")
        .AddRow("cloches", 3, PieceKind.Circle, "cream", (8, 12, 6, 6), 1, on: "plot-a")
        .Add(PieceKind.Strip, "hedge", "leaf", (3, 92, 74, 10), on: "plots", runs: Axis.Across)
        .Add(PieceKind.Label, "thanks", "cream", (14, 90, 52, 13), on: "plots", text: "Thank you for lending a hand", mats: [("beet", 1)], lifted: true)
        .Make();

    /// <summary>A2 portrait: a column of strips with ends like gaps, offsets in sevenths.</summary>
    public static FittedCard PlotMarkers() => new CardMaker(CardMaker.A2, Holding.Portrait, "Plot markers")
        .Add(PieceKind.Panel, "ground", "trellis", (2, 2, 64, 84), reveal: 2)
        .AddRow("markers", 5, PieceKind.Strip, "cream", (8, 10, 52, 8), 6, runs: Axis.UpDown, on: "ground")
        .Add(PieceKind.Tag, "tag", "marigold", (54, 60, 12, 24), on: "ground", hangs: Edge.Bottom)
        .Add(PieceKind.Label, "names", "kraft", (6, 74.5m, 44, 9), on: "ground", text: "Runner beans · leeks")
        .Make();

    /// <summary>A2 portrait with nothing but a base.</summary>
    public static FittedCard Plain() => new CardMaker(CardMaker.A2, Holding.Portrait, "A plain card").Make();

    /// <summary>Metric A6 portrait: nothing one-way and no lettering, so that a mirror shows itself.</summary>
    public static FittedCard WateringCan() => WateringCan(mirrored: false);

    /// <summary>The same card, or the card with everything left to right.</summary>
    public static FittedCard WateringCan(bool mirrored)
    {
        const long Width = 105;
        return new CardMaker(CardMaker.A6, Holding.Portrait, "Watering can")
            .Add(PieceKind.Panel, "ground", "seeds", Place(4, 4, 97, 140), reveal: 4)
            .Add(PieceKind.Strip, "bed", "soil", Place(4, 100, 97, 24), on: "ground", mats: [("cream", 2)], runs: Axis.Across)
            .Add(PieceKind.Banner, "drip", "trellis", Place(12, 4, 20, 60), on: "ground", tail: (TailKind.Fishtail, 10, 4))
            .Add(PieceKind.Image, "can", "cream", Place(44, 20, 48, 40), on: "ground", tilt: mirrored ? -5 : 5, flipped: mirrored, lifted: true)
            .Add(PieceKind.Oval, "puddle", "leaf", Place(50, 70, 40, 20), on: "ground")
            .Add(PieceKind.Tag, "peg", "marigold", Place(60, 96, 16, 40), on: "ground", tilt: mirrored ? 10 : -10)
            .Make();

        (decimal, decimal, long, long) Place(long left, long top, long width, long height) =>
            (mirrored ? Width - left - width : left, top, width, height);
    }
}

using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Tests.Drawing;

/// <summary>Cards made by a fixed little generator, so that a seed names the same card everywhere.</summary>
internal static class RandomCards
{
    private static readonly string[] Papers = ["cream", "leaf", "soil", "marigold", "beet"];

    /// <summary>A card of some pieces: panels that fill, strips, circles, ovals, banners, tags, labels, tilts, mats with small reveals, rows.</summary>
    public static FittedCard Make(int seed, int pieces)
    {
        var state = (ulong)seed;
        var format = Pick(CardMaker.A2, CardMaker.A7, CardMaker.Square, CardMaker.A6);
        var holding = Next(2) == 0 ? Holding.Portrait : Holding.Landscape;
        var maker = new CardMaker(format, holding, $"Card {seed}");
        var held = format.Held(holding);
        var (width, height) = ((int)(held.Width.Nanometres / maker.Steps(1).Nanometres), (int)(held.Height.Nanometres / maker.Steps(1).Nanometres));
        var most = pieces <= 40 ? 36 : Math.Max(6, 36 * 40 / pieces);
        var made = 0;
        List<(string Name, int X, int Y, int Width, int Height)> parents = [];
        if (Next(3) > 0)
        {
            maker.Add(PieceKind.Panel, "ground", "cream", (2, 2, width - 4, height - 4), reveal: 2);
            parents.Add(("ground", 2, 2, width - 4, height - 4));
            made++;
        }

        while (made < pieces)
        {
            if (pieces - made >= 3 && Next(8) == 0)
            {
                AddRow();
            }
            else
            {
                AddPiece();
            }
        }

        return maker.Make();

        int Next(int below)
        {
            // The multiplier of Steele and Vigna's table for 64-bit generators, from memory; any odd one would do here.
            state = unchecked((state * 0xd1342543de82ef95UL) + 1442695040888963407UL);
            return (int)((state >> 33) % (ulong)below);
        }

        T Pick<T>(params T[] from) => from[Next(from.Length)];

        void AddRow()
        {
            var count = 2 + Next(Math.Min(4, pieces - made - 1));
            var size = 5 + Next(Math.Min(8, most));
            var gap = Pick(-2m, 0.5m, 1m, 3m, 4.25m);
            var tilt = Next(4) == 0 ? Next(13) - 6 : 0;
            maker.AddRow(
                $"row-{made}", count, Pick(PieceKind.Square, PieceKind.Circle), Pick(Papers), (4 + Next(width / 3), 4 + Next(height - size - 8), size, size), gap,
                tilt: tilt, alternate: Next(2) == 0, mats: Next(3) == 0 ? [("soil", 1)] : null);
            made += count;
        }

        void AddPiece()
        {
            var kind = Pick(
                PieceKind.Panel, PieceKind.Strip, PieceKind.Circle, PieceKind.Oval, PieceKind.Banner, PieceKind.Label, PieceKind.Square, PieceKind.Tag,
                PieceKind.Image, PieceKind.Frame);
            var (w, h) = (4 + Next(most), 4 + Next(most));
            h = kind is PieceKind.Circle or PieceKind.Square ? w : h;
            var parent = parents.Count > 0 && Next(4) > 0 ? parents[Next(parents.Count)] : default;
            var (x, y) = (Next(Math.Max(1, width - w)), Next(Math.Max(1, height - h)));
            if (kind == PieceKind.Banner)
            {
                (w, h, y) = (4 + (2 * Next(8)), 12 + Next(30), 2);
            }

            if (kind == PieceKind.Frame)
            {
                (w, h) = (Math.Max(w, 8), Math.Max(h, 8));
            }

            // A place in thirds now and then, such as centring on an odd distance gives.
            var left = Next(10) == 0 ? x + 0.333m : x;
            var name = $"piece-{made++}";
            var tilt = kind is PieceKind.Square or PieceKind.Label or PieceKind.Image or PieceKind.Tag && Next(3) == 0 ? Next(25) - 12 : 0;
            maker.Add(
                kind, name, Pick(Papers), (left, y, w, h), on: parent.Name, tilt: tilt,
                mats: [.. Enumerable.Repeat(("soil", Pick(0.5m, 1m, 2m)), kind == PieceKind.Frame ? 0 : Next(6) switch { 0 => 2, < 3 => 1, _ => 0 })],
                tail: kind == PieceKind.Banner ? Pick((TailKind.Straight, 0m, 0m), (TailKind.Fishtail, 2m, 0m), (TailKind.Pointed, 2m, 0m)) : null,
                text: kind == PieceKind.Label ? "Thanks" : null, bar: kind == PieceKind.Frame ? 2 : 0);
            if (kind == PieceKind.Panel && tilt == 0)
            {
                parents.Add((name, x, y, w, h));
            }
        }
    }
}

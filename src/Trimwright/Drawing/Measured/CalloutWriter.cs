using System.Globalization;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>Where the size of a piece is said.</summary>
internal enum SizeSaying
{
    /// <summary>Between dimension lines around the face.</summary>
    BetweenLines,

    /// <summary>On the tilted piece, along its edges: the callout says the tilt alone.</summary>
    OnThePiece,

    /// <summary>In the callout.</summary>
    Here,
}

/// <summary>Writes what is said of pieces in callouts.</summary>
/// <param name="text">How lengths are written.</param>
internal sealed class CalloutWriter(DimensionText text)
{
    /// <summary>The diameter sign, as ISO 129-1 writes it before the figure.</summary>
    public const string Diameter = "⌀";

    /// <summary>Pieces of a row with the same likeness are said once.</summary>
    public string Likeness(FittedPiece piece) =>
        string.Join('|', [piece.Source.Kind.ToString(), .. Details(piece).SelectMany(line => line.Values.Select(Exactly).Prepend(line.Measure!))]);

    /// <summary>Writes the lines for a piece, or for pieces that are alike.</summary>
    /// <param name="name">The name that heads them.</param>
    /// <param name="pieces">The pieces.</param>
    /// <param name="saysSize">Where the size is said.</param>
    /// <param name="centredOn">The piece in whose middle it lies, or null where distances place it.</param>
    public IReadOnlyList<CalloutLine> Write(string name, IReadOnlyList<FittedPiece> pieces, SizeSaying saysSize, string? centredOn)
    {
        var piece = pieces[0];
        var count = pieces.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $", {pieces.Count} x") : "";
        var tilts = TiltsOf(pieces);
        List<CalloutLine> lines = [new(name + count, null, [])];
        if (saysSize == SizeSaying.Here)
        {
            lines.Add(SizeOf(piece));
        }

        if (tilts.Length > 0)
        {
            lines.Add(new("tilted " + tilts, null, []));
        }

        lines.AddRange(Details(piece).Skip(1));
        if (centredOn is not null)
        {
            lines.Add(new("centred on " + centredOn, null, []));
        }

        return lines;
    }

    private IEnumerable<CalloutLine> Details(FittedPiece piece)
    {
        yield return SizeOf(piece);
        if (piece.Reveal is { } reveal)
        {
            yield return Line("reveal", $"reveal {Text(reveal)}", reveal);
        }

        if (piece.TailDepth is { } depth)
        {
            yield return Line("tail", piece.Source.Tail?.Kind == TailKind.Pointed ? $"point {Text(depth)}" : $"notch {Text(depth)}", depth);
        }

        if (piece.Source.Kind == PieceKind.Banner && TailWidth(piece) is { } tail)
        {
            yield return Line("tail-width", $"{Text(tail)} at the tail", tail);
        }

        if (piece.Window is { } window)
        {
            var bar = window.Left - piece.Box.Left;
            yield return Line("bars", $"bars {Text(bar)}", bar);
            yield return Line("window", $"window {text.WriteSize(window.Width, window.Height)}", window.Width, window.Height);
        }

        if (piece.Source.Kind == PieceKind.Tag && Corner(piece) is var cut && LengthText.IsOnRuler(cut.Nanometres, text.Unit))
        {
            yield return Line("corners", $"corners {Text(cut)}", cut);
        }

        for (var i = 0; i < piece.Mats.Count; i++)
        {
            var mat = piece.Mats[i];
            var number = string.Create(CultureInfo.InvariantCulture, $"{i + 1}");
            var size = SizeOf(piece, mat);
            yield return Line(
                "mat-" + number, $"{(piece.Mats.Count > 1 ? $"mat {number}:" : "mat")} {size.Text}, reveal {Text(mat.Reveal)}",
                [.. size.Values, mat.Reveal]);
        }
    }

    // Of a picture cut out along its edge the drawing shows the outline, not the rectangle that it is cut from.
    private CalloutLine SizeOf(FittedPiece piece) => piece.Source.CutOut is null
        ? Size(piece, piece.Width, piece.Height)
        : Line("size", text.WriteSize(piece.Box.Width, piece.Box.Height), piece.Box.Width, piece.Box.Height);

    private CalloutLine SizeOf(FittedPiece piece, FittedMat mat) => piece.Source.CutOut is null
        ? Size(piece, mat.Width, mat.Height)
        : Line("size", text.WriteSize(mat.Box.Width, mat.Box.Height), mat.Box.Width, mat.Box.Height);

    private CalloutLine Size(FittedPiece piece, Length width, Length height)
    {
        var (w, h) = (Position.FromLength(width), Position.FromLength(height));
        return piece.Source.Kind == PieceKind.Circle
            ? Line("size", Diameter + Text(w), w)
            : Line("size", text.WriteSize(w, h), w, h);
    }

    private static string Exactly(Position value) => value.Nanometres.ToString();

    private static CalloutLine Line(string measure, string text, params Position[] values) => new(text, measure, values);

    /// <summary>The tilts in the order of the pieces; said once where all are the same.</summary>
    private static string TiltsOf(IReadOnlyList<FittedPiece> pieces)
    {
        var tilts = pieces.Select(piece => piece.Source.Tilt).ToArray();
        return tilts.All(tilt => tilt.IsZero) ? ""
            : tilts.Distinct().Count() == 1 ? TiltText(tilts[0])
            : string.Join(", ", tilts.Select(tilt => tilt.IsZero ? "0°" : TiltText(tilt)));
    }

    private static string TiltText(Angle tilt) =>
        tilt.Degrees.Sign < 0 ? new Angle(-tilt.Degrees) + " left" : tilt + " right";

    /// <summary>How wide a banner is at its tail, where it is narrower than at the top; its points are those of the builder.</summary>
    private static Position? TailWidth(FittedPiece piece)
    {
        if (piece.Outline.Contours[0] is not PolygonContour { Points: [var first, var second, var right, .., var left] })
        {
            return null;
        }

        var (hung, tail) = (Along(first, second), Along(right, left));
        return hung == tail ? null : tail;

        static Position Along(Point a, Point b) =>
            new((a.X - b.X).Nanometres.Abs() + (a.Y - b.Y).Nanometres.Abs());
    }

    /// <summary>How much is cut off the corners of a tag; its points are those of the builder.</summary>
    private static Position Corner(FittedPiece piece) =>
        piece.Outline.Contours[0] is PolygonContour { Points: [_, var before, var after, ..] }
            ? new((after.X - before.X).Nanometres.Abs())
            : default;

    private string Text(Position length) => text.Write(length);
}

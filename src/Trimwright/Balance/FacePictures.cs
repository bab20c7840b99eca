using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>The pictures that lie on the pieces of a layout, made small enough to be weighed many times over.</summary>
public sealed class FacePictures
{
    private readonly Dictionary<string, SmallPicture> _byPiece = new(StringComparer.Ordinal);

    /// <summary>No pictures: pieces are as light or dark as their paper.</summary>
    public static FacePictures None { get; } = new();

    /// <summary>The pictures that a layout names and that were read with it.</summary>
    public static FacePictures Of(Layout layout)
    {
        var pictures = None;
        foreach (var (name, content) in layout.Pieces.Where(piece => piece.Picture?.Content is not null).Select(piece => (piece.Name, piece.Picture!.Content!)))
        {
            pictures = pictures.With(name, content.Picture, content.Outline);
        }

        return pictures;
    }

    /// <summary>These and one more.</summary>
    /// <param name="piece">The name of the piece.</param>
    /// <param name="picture">The picture.</param>
    /// <param name="outline">
    /// The outline that it is cut out by, which then fills the box of the piece; null where the whole picture fills the box.
    /// </param>
    public FacePictures With(string piece, Picture picture, PictureOutline? outline = null)
    {
        var more = new FacePictures();
        foreach (var (name, small) in _byPiece)
        {
            more._byPiece[name] = small;
        }

        more._byPiece[piece] = SmallPicture.Of(picture, outline);
        return more;
    }

    internal SmallPicture? Find(string piece) => _byPiece.GetValueOrDefault(piece);
}

/// <summary>A picture as light that it sends back by itself, and how much of what is below it lets through.</summary>
internal sealed class SmallPicture
{
    // Finer than the cells of a face, which it covers a part of.
    private const int MostSide = 512;

    private readonly int _width;
    private readonly int _height;
    private readonly int _factor;
    private readonly int[] _light;
    private readonly int[] _cover;
    private readonly PictureOutline? _outline;

    private SmallPicture(int width, int height, int factor, int[] light, int[] cover, PictureOutline? outline) =>
        (_width, _height, _factor, _light, _cover, _outline) = (width, height, factor, light, cover, outline);

    public static SmallPicture Of(Picture picture, PictureOutline? outline)
    {
        var factor = Math.Max(1, (Math.Max(picture.Width, picture.Height) + MostSide - 1) / MostSide);
        var (width, height) = ((picture.Width + factor - 1) / factor, (picture.Height + factor - 1) / factor);
        var (light, cover) = (new int[width * height], new int[width * height]);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                (light[(y * width) + x], cover[(y * width) + x]) = Mean(picture, x * factor, y * factor, factor);
            }
        }

        return new(picture.Width, picture.Height, factor, light, cover, outline);
    }

    /// <summary>The picture as it lies on a fitted piece.</summary>
    public LaidPicture LaidOn(FittedPiece piece, Turn turn)
    {
        var box = piece.PictureBox ?? (_outline is null ? piece.Box : _outline.PictureBoxFor(piece.Box));
        return new(this, box, FaceLayers.Nanometres(piece.Box.Left + piece.Box.Right), piece.Source.Flipped, turn);
    }

    /// <summary>The grey at a place, counted in 2^20 parts of the picture from its upper left corner, on paper of a grey.</summary>
    public int GreyAt(long x, long y, int paper)
    {
        var column = (int)Math.Clamp((x * _width) >> 20, 0, _width - 1) / _factor;
        var row = (int)Math.Clamp((y * _height) >> 20, 0, _height - 1) / _factor;
        var i = (row * ((_width + _factor - 1) / _factor)) + column;
        return Math.Min(LinearLight.White, _light[i] + (int)((long)paper * (LinearLight.White - _cover[i]) / LinearLight.White));
    }

    // Light times alpha, and alpha, both as means of 0 to White.
    private static (int Light, int Cover) Mean(Picture picture, int left, int top, int factor)
    {
        var (right, bottom) = (Math.Min(left + factor, picture.Width), Math.Min(top + factor, picture.Height));
        var (light, alpha) = (0L, 0L);
        for (var y = top; y < bottom; y++)
        {
            var row = picture.Rgba.Slice(4 * ((y * picture.Width) + left), 4 * (right - left));
            for (var at = 0; at < row.Length; at += 4)
            {
                light += (long)LinearLight.GreyOf(row[at], row[at + 1], row[at + 2]) * row[at + 3];
                alpha += row[at + 3];
            }
        }

        var pixels = 255L * (right - left) * (bottom - top);
        return ((int)(light / pixels), (int)(alpha * LinearLight.White / pixels));
    }
}

/// <summary>A picture laid on a piece.</summary>
/// <param name="picture">The picture.</param>
/// <param name="box">The box that the whole picture fills, before any tilt.</param>
/// <param name="twiceMiddle">Twice the place across that a flip turns about, in nanometres.</param>
/// <param name="flipped">Whether left and right are exchanged.</param>
/// <param name="turn">The tilt.</param>
internal sealed class LaidPicture(SmallPicture picture, Box box, long twiceMiddle, bool flipped, Turn turn)
{
    private readonly long _left = FaceLayers.Nanometres(box.Left);
    private readonly long _top = FaceLayers.Nanometres(box.Top);
    private readonly long _width = Math.Max(1, FaceLayers.Nanometres(box.Width));
    private readonly long _height = Math.Max(1, FaceLayers.Nanometres(box.Height));

    /// <summary>The grey at a place of the card, in nanometres, on paper of a grey.</summary>
    public int GreyAt(long x, long y, int paper)
    {
        var (ownX, ownY) = turn.Undo(x, y);
        ownX = flipped ? twiceMiddle - ownX : ownX;
        return picture.GreyAt(((ownX - _left) << 20) / _width, ((ownY - _top) << 20) / _height, paper);
    }
}

using System.Runtime.InteropServices;

namespace Trimwright.Images;

/// <summary>Turns stored pixels the way the picture is meant to be seen.</summary>
internal static class PictureTurn
{
    /// <summary>
    /// Applies the orientation of Exif 2.3 (tag 274): 1 as stored, 2 mirrored left to right, 3 half round, 4 mirrored top to bottom,
    /// 5 rows and columns exchanged, 6 to be turned a quarter clockwise, 7 exchanged about the other diagonal, 8 a quarter
    /// anticlockwise. Anything else counts as 1.
    /// </summary>
    public static Picture Upright(byte[] rgba, int width, int height, int orientation)
    {
        if (orientation is < 2 or > 8)
        {
            return Picture.FromOwned(width, height, rgba);
        }

        var exchanges = orientation >= 5;
        var (turnedWidth, turnedHeight) = exchanges ? (height, width) : (width, height);
        var fromRight = orientation is 2 or 3 or 7 or 8;
        var fromBottom = orientation is 3 or 4 or 6 or 7;
        var stored = MemoryMarshal.Cast<byte, uint>(rgba);
        var turned = new byte[rgba.Length];
        var target = MemoryMarshal.Cast<byte, uint>(turned.AsSpan());
        for (var y = 0; y < turnedHeight; y++)
        {
            for (var x = 0; x < turnedWidth; x++)
            {
                var (column, row) = exchanges ? (y, x) : (x, y);
                column = fromRight ? width - 1 - column : column;
                row = fromBottom ? height - 1 - row : row;
                target[(y * turnedWidth) + x] = stored[(row * width) + column];
            }
        }

        return Picture.FromOwned(turnedWidth, turnedHeight, turned);
    }
}

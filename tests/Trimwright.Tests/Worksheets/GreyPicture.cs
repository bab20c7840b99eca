using System.Globalization;
using System.Text;

namespace Trimwright.Tests.Worksheets;

/// <summary>A picture in the format PGM (Netpbm), as pdftoppm writes it.</summary>
internal sealed class GreyPicture
{
    private readonly byte[] _file;
    private readonly int _start;

    public GreyPicture(byte[] file)
    {
        _file = file;
        var at = 0;
        Assert.Equal("P5", Word());
        Width = int.Parse(Word(), CultureInfo.InvariantCulture);
        Height = int.Parse(Word(), CultureInfo.InvariantCulture);
        Assert.Equal("255", Word());
        _start = at;

        string Word()
        {
            var word = new StringBuilder();
            while (!char.IsWhiteSpace((char)file[at]))
            {
                word.Append((char)file[at++]);
            }

            at++;
            return word.ToString();
        }
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Black is 0, white is 255.</summary>
    public byte this[int x, int y] => _file[_start + (y * Width) + x];

    /// <summary>The dark stretches of a row: where they begin, and how long they are.</summary>
    public IEnumerable<(int From, int Length)> DarkIn(int y, int darkerThan = 128)
    {
        for (var x = 0; x < Width; x++)
        {
            var from = x;
            while (x < Width && this[x, y] < darkerThan)
            {
                x++;
            }

            if (x > from)
            {
                yield return (from, x - from);
            }
        }
    }
}

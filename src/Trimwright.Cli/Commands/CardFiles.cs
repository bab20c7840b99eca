using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary>The files that are written for a fitted card.</summary>
internal sealed class CardFiles(OutputFolder folder, bool png, int dpi, Screen screen)
{
    private bool _pictures = png;

    public void Add(string stem, FittedCard card)
    {
        if (card.Pieces.Count > MeasuredDrawing.MostPieces)
        {
            screen.Warn(FormattableString.Invariant(
                $"more than {MeasuredDrawing.MostPieces} pieces cannot be measured legibly on one drawing: it gives the card alone, the trim list gives every piece"));
        }

        AddDrawing($"{stem}-measured", MeasuredDrawing.Draw(card));
        AddDrawing($"{stem}-face", FaceDrawing.Draw(card));
        var list = TrimList.FromCard(card);
        folder.Add($"{stem}-trim-list.md", TrimSheet.Write(list));
        folder.Add($"{stem}-trim-list.csv", TrimCsv.Write(list));
    }

    public void AddDrawing(string stem, DrawingList drawing)
    {
        var svg = SvgWriter.Write(drawing);
        folder.Add(stem + ".svg", svg);
        if (!_pictures)
        {
            return;
        }

        if (PngWriter.TryWrite(svg, dpi, out var bytes, out var problem))
        {
            folder.Add(stem + ".png", bytes);
            return;
        }

        // One warning is enough: what kept the first picture keeps them all.
        screen.Warn($"no pictures (PNG) can be made here, only drawings (SVG): {problem}");
        _pictures = false;
    }
}

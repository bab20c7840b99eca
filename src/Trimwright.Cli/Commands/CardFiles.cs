using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary>The files that are written for a fitted card.</summary>
internal sealed class CardFiles(OutputFolder folder, bool png, int dpi, bool bothUnits, Screen screen)
{
    private bool _pictures = png;

    public void Add(string stem, FittedCard card)
    {
        foreach (var sheet in MeasuredDrawing.Sheets(card, bothUnits))
        {
            AddDrawing(sheet.Number == 1 ? $"{stem}-measured" : FormattableString.Invariant($"{stem}-measured-{sheet.Number}"), sheet.Drawing);
        }

        AddDrawing($"{stem}-face", FaceDrawing.Draw(card));
        AddDrawing($"{stem}-layers", LayersDrawing.Draw(card));
        AddDrawing($"{stem}-pieces", PieceSheetDrawing.Draw(card));
        AddDrawing($"{stem}-base", BaseDrawing.Draw(card, bothUnits));
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

using Trimwright.Batches;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>A pieced panel at half size: its two strips, what covers the seam, and the seam dashed, with their sizes below.</summary>
public static class SeamDrawing
{
    private const double Border = 8;
    private const double TitleHeight = 4;
    private const double TextHeight = 2.2;
    private const double LinePitch = 3.8;

    private static readonly Rational Half = Rational.From(1, 2);
    private static readonly Stroke Edge = new(Palette.Wide, Palette.Ink);
    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);
    private static readonly Stroke Seam = new(Palette.Wide, Palette.Ink, Palette.Micrometres(2000), Palette.Micrometres(1000));

    /// <summary>Draws one pieced panel of a schedule.</summary>
    public static DrawingList Draw(TrimSchedule schedule, PiecedPanel pieced)
    {
        var batch = schedule.Plan.Batch.Batch;
        var seam = pieced.Seam;
        var panel = Scaled(seam.Panel.Box);
        var cover = Scaled(seam.CoverBox);
        var at = (seam.Direction == Axis.UpDown ? seam.Panel.Box.Left + seam.At : seam.Panel.Box.Top + seam.At) * Half;
        var tone = batch.PaperNamed(pieced.First.Sources[0].Paper).Colour;
        var area = Plane.Roughly(panel).Around(Plane.Roughly(cover));
        var title = $"{pieced.Panel.Line.Name}, pieced";
        string[] words =
        [
            $"{LengthText.WriteSize(seam.Panel.Width, seam.Panel.Height, batch.Unit)}, {pieced.First.Sources[0].Paper}; shown at half size",
            $"{pieced.First.Line.Name}: {LengthText.WriteSize(pieced.First.Width, pieced.First.Height, batch.Unit)}",
            $"{pieced.Second.Line.Name}: {LengthText.WriteSize(pieced.Second.Width, pieced.Second.Height, batch.Unit)}",
            $"seam (dashed): {LengthText.Write(seam.At, batch.Unit)} from the {(seam.Direction == Axis.UpDown ? "left" : "top")} edge, under the {seam.Cover.Name}",
        ];
        var heading = Line(title, area.Left, area.Top - 4, TitleHeight, Palette.Ink);
        var below = words.Select((line, n) => Line(line, area.Left, area.Bottom + 4 + TextHeight + (LinePitch * n), TextHeight, n == 0 ? Palette.Quiet : Palette.Ink)).ToList();
        var right = below.Append(heading).Max(line => area.Left + Plane.Roughly(LetteringFont.Instance.Width(line.Text, line.CapHeight)));
        return new()
        {
            Title = title,
            Description = $"How the {pieced.Panel.Line.Name} of {batch.Title} is pieced from two strips; the seam dashed, its cover pale",
            Unit = batch.Unit,
            Sheet = Plane.Exactly(new Area(
                area.Left - Border, area.Top - 4 - TitleHeight - Border, Math.Max(area.Right, right) + Border, area.Bottom + 4 + (LinePitch * words.Length) + Border)).OutToStep(batch.Unit),
            Patterns = [],
            Items =
            [
                new DrawnOutline(Outline.FromBox(panel), new(Palette.Lighter(tone, 55)), Edge) { Id = "panel" },
                new DrawnOutline(Outline.FromBox(cover), new(Palette.Lighter(Palette.Quiet, 85)), Thin) { Id = "cover" },
                new DrawnLine(
                    seam.Direction == Axis.UpDown ? [new(at, panel.Top), new(at, panel.Bottom)] : [new(panel.Left, at), new(panel.Right, at)], Seam)
                {
                    Class = "seam",
                },
                heading, .. below,
            ],
        };
    }

    private static Box Scaled(Box box) => new(box.Left * Half, box.Top * Half, box.Right * Half, box.Bottom * Half);

    private static DrawnText Line(string text, double x, double y, double height, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Palette.Micrometres((long)(height * 1000)), colour);
}

using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Reads the picture of an image, and opens each file once.</summary>
internal sealed class PictureValues(Func<string, PictureFile>? open)
{
    // The most that an outline may lie beside the edge that was traced, in pixels.
    private const int MostTolerance = 16;

    private readonly Dictionary<string, PictureReading?> _readings = new(StringComparer.Ordinal);
    private readonly Dictionary<(string File, TraceOptions Cutting), PictureOutline?> _outlines = [];

    /// <summary>The picture that a piece names; null if it names none, or none that can be used, which was reported.</summary>
    public PiecePicture? Read(ObjectView piece, CutWay cut, ReadingContext context)
    {
        if (piece.Find("picture") is not { } member)
        {
            return null;
        }

        var picture = member.Value switch
        {
            SyntaxText text => new PiecePicture(text.Text, TraceOptions.Default, text.Place),
            SyntaxObject value => Read(value, context),
            var other => Refuse(other, context),
        };
        if (picture is null)
        {
            return null;
        }

        if (string.IsNullOrWhiteSpace(picture.File))
        {
            context.Add(LayoutMessages.EmptyText("picture", picture.Source));
            return null;
        }

        return open is null ? picture : picture with { Content = Open(picture, cut == CutWay.Scissors, context) };
    }

    private static PiecePicture? Read(SyntaxObject value, ReadingContext context)
    {
        var view = new ObjectView(value, "a picture", LayoutKeys.Picture, context);
        var file = view.Text(view.Need("file"));
        var cutting = TraceOptions.Default with
        {
            Tolerance = Number(view, "outline-within", 0, MostTolerance, context) ?? TraceOptions.Default.Tolerance,
            GroundTolerance = (int)(Number(view, "ground-within", 0, byte.MaxValue, context)?.Floor() ?? TraceOptions.Default.GroundTolerance),
            EnclosedGroundIsHole = view.Flag("cut-enclosed-ground"),
        };
        return file is null ? null : new(file.Text, cutting, file.Place);
    }

    private static Rational? Number(ObjectView view, string key, int least, int most, ReadingContext context)
    {
        if (view.Find(key) is not { } member || LengthValues.Number(member.Value, $"`{key}`", context) is not { } number)
        {
            return null;
        }

        if (number >= least && number <= most)
        {
            return number;
        }

        context.Add(LayoutMessages.OutOfRange(key, $"from {least} to {most}", member.Value.Place));
        return null;
    }

    // A slip of the pen, another folder, or another ending, in this order.
    private static string? Meant(string file, IReadOnlyList<string> others)
    {
        var names = others.Where(PictureReader.IsNamedLikeOne).ToList();
        return NearNames.Nearest(file, names)
            ?? names.Find(other => Path.GetFileName(other).Equals(Name(file), StringComparison.OrdinalIgnoreCase))
            ?? names.Find(other => NearNames.Nearest(Name(file), [Path.GetFileName(other)]) is not null)
            ?? names.Find(other => Path.GetFileNameWithoutExtension(other).Equals(Path.GetFileNameWithoutExtension(Name(file)), StringComparison.OrdinalIgnoreCase));

        static string Name(string path) => path[(path.LastIndexOfAny(['/', '\\']) + 1)..];
    }

    private static PiecePicture? Refuse(SyntaxValue value, ReadingContext context)
    {
        context.Add(LayoutMessages.WrongKind("`picture`", "a file, like `\"robin.png\"`", value));
        return null;
    }

    private PictureContent? Open(PiecePicture picture, bool alongOutline, ReadingContext context)
    {
        // A file named twice is read once, and what is wrong with it said once.
        if (!_readings.TryGetValue(picture.File, out var reading))
        {
            var opened = open!(picture.File);
            if (opened.Bytes is { } bytes)
            {
                reading = PictureReader.Read(picture.File, bytes, picture.Source);
                context.Diagnostics.AddRange(reading.Diagnostics);
            }
            else
            {
                context.Add(opened.Problem is { } problem
                    ? LayoutMessages.PictureNotRead(picture.File, problem, opened.Others.FirstOrDefault(PictureReader.IsNamedLikeOne), picture.Source)
                    : LayoutMessages.NoPicture(picture.File, Meant(picture.File, opened.Others), picture.Source));
            }

            _readings.Add(picture.File, reading);
        }

        if (reading?.Picture is not { } pixels)
        {
            return null;
        }

        if (!alongOutline)
        {
            return new(pixels, null, reading.Stored);
        }

        if (!_outlines.TryGetValue((picture.File, picture.Cutting), out var outline))
        {
            var tracing = PictureTracer.Trace(picture.File, pixels, picture.Cutting, picture.Source);
            context.Diagnostics.AddRange(tracing.Diagnostics);
            outline = tracing.Outline;
            _outlines.Add((picture.File, picture.Cutting), outline);
        }

        return outline is null ? null : new(pixels, outline, reading.Stored);
    }
}

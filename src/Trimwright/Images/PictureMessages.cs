using System.Globalization;
using Trimwright.Diagnostics;

namespace Trimwright.Images;

/// <summary>The texts of all diagnostics of this room, one method a code.</summary>
internal static class PictureMessages
{
    public static Diagnostic FileTooLarge(string name, SourcePlace place) =>
        Error("E0501", $"`{name}` is larger than {PictureReader.MostBytes / (1024 * 1024)} MiB", place, "save the picture smaller: 2,000 pixels along its longer side are plenty for a card");

    public static Diagnostic NotAPicture(string name, string? kind, SourcePlace place) => Error(
        "E0502", $"`{name}` {(kind is null ? "is not a picture" : $"is {kind}")}; pictures in PNG, JPEG and WebP are read", place,
        kind is null or PictureFormats.Empty
            ? "see whether it is the file you mean, or save the picture again"
            : "open it with what you drew or took it with and save it as PNG, which keeps a clear ground clear");

    public static Diagnostic TooManyPixels(string name, long width, long height, SourcePlace place) =>
        Error(
            "E0503",
            Text($"`{name}` is {width} x {height} pixels; at most {PictureReader.MostSide} along a side and {PictureReader.MostPixels / 1_000_000} million in all are read"),
            place,
            "save the picture smaller: 2,000 pixels along its longer side are plenty for a card");

    public static Diagnostic Damaged(string name, PictureFormat format, SourcePlace place) =>
        Error("E0504", $"`{name}` is a {PictureFormats.NameOf(format)} picture that breaks off or is damaged", place, "copy or export the picture again");

    public static Diagnostic NoLibrary(string name, SourcePlace place) =>
        Error("E0505", $"`{name}` cannot be read: the graphics library of this machine cannot be loaded", place, "take the picture out of the layout, or use a machine with the library; everything else works without it");

    public static Diagnostic NothingLeft(string name, SourcePlace place) =>
        Error("E0506", $"nothing of `{name}` is left when its ground is taken away", place, "use a picture that stands out from its ground");

    public static Diagnostic GroundNotPlain(string name, SourcePlace place) =>
        Error("E0507", $"`{name}` has neither a clear nor a plain ground, so its outline cannot be told", place, "save the picture as PNG with a clear ground, or use it as a rectangle: write `\"cut\": \"trimmer\"`");

    public static Diagnostic Animated(string name, SourcePlace place) =>
        Warning("W0501", $"`{name}` is animated; its first picture is used", place, "save the picture that you want as a still one");

    public static Diagnostic OtherFormat(string name, PictureFormat holds, SourcePlace place) =>
        Warning("W0502", $"`{name}` holds a {PictureFormats.NameOf(holds)} picture and is read as one", place, $"rename it so that it ends in `{Ending(holds)}`");

    public static Diagnostic SeveralParts(string name, int parts, SourcePlace place) =>
        Warning(
            "W0503", Text($"`{name}` falls into {parts} parts when it is cut out"), place, "join them in the picture, or put a mat behind them that is wide enough to hold them together");

    private static string Ending(PictureFormat format) => format switch
    {
        PictureFormat.Png => ".png",
        PictureFormat.Jpeg => ".jpg",
        _ => ".webp",
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static Diagnostic Error(string code, string message, SourcePlace place, string remedy) =>
        new(code, Severity.Error, message, place) { Remedy = remedy };

    private static Diagnostic Warning(string code, string message, SourcePlace place, string remedy) =>
        new(code, Severity.Warning, message, place) { Remedy = remedy };
}

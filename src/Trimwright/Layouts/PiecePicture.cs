using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>The picture that lies on an image.</summary>
/// <param name="File">The file as the layout names it, as seen from the folder of the layout.</param>
/// <param name="Cutting">How it is cut out, where it is cut along its outline.</param>
/// <param name="Source">Where the file is named.</param>
public sealed record PiecePicture(string File, TraceOptions Cutting, SourcePlace Source)
{
    /// <summary>The picture, or null where the layout was read without a way to open files: the image then has no shape of its own.</summary>
    public PictureContent? Content { get; init; }
}

/// <summary>A picture that was read.</summary>
/// <param name="Picture">Its pixels.</param>
/// <param name="Outline">The outline that it is cut out by, or null where it is cut as a rectangle.</param>
/// <param name="Stored">The file itself, where it can be shown as it is.</param>
public sealed record PictureContent(Picture Picture, PictureOutline? Outline, StoredPicture? Stored)
{
    /// <summary>Width divided by height: of the outline, or of the whole picture where there is none.</summary>
    public Rational Aspect => Outline?.Aspect ?? Rational.From(Picture.Width, Picture.Height);
}

/// <summary>A picture file as it was opened.</summary>
/// <param name="Bytes">Its bytes; null where it could not be read.</param>
/// <param name="Problem">Why it could not be read, such as <c>access is denied</c>; null where there is no such file.</param>
public sealed record PictureFile(byte[]? Bytes, string? Problem = null)
{
    /// <summary>There is no such file.</summary>
    public static PictureFile NotThere { get; } = new(null, null);

    /// <summary>Where there is no such file, or it is a folder: others that could be meant, as the layout would name them.</summary>
    public IReadOnlyList<string> Others { get; init; } = [];
}

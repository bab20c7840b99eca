using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>A size of paper to print on, held upright.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Width">Its shorter side.</param>
/// <param name="Height">Its longer side.</param>
public sealed record PaperSize(string Name, Length Width, Length Height)
{
    /// <summary>Letter: 8 1/2 x 11 in (ANSI/ASME Y14.1 size A, as restated in printing references).</summary>
    public static PaperSize Letter { get; } = new("Letter", Length.FromInches(17, 2), Length.FromInches(11));

    /// <summary>A4: 210 x 297 mm (ISO 216).</summary>
    public static PaperSize A4 { get; } = new("A4", Length.FromMillimetres(210), Length.FromMillimetres(297));

    /// <summary>The sizes there are.</summary>
    public static IReadOnlyList<PaperSize> All { get; } = [Letter, A4];

    /// <summary>The paper that printers are usually loaded with where a unit is used: Letter for inches, A4 for millimetres.</summary>
    public static PaperSize For(LengthUnit unit) => unit == LengthUnit.Inch ? Letter : A4;

    /// <summary>The size of that name, in capitals or not; null if there is none.</summary>
    public static PaperSize? Find(string name) =>
        All.FirstOrDefault(size => string.Equals(size.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));
}

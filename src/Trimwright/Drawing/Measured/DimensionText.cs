using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>Writes lengths as makers read them on a drawing.</summary>
/// <remarks>
/// Inches are mixed fractions to 1/64, millimetres have at most one decimal: what a ruler shows. What lies between, such as the gaps of
/// a row, is given to the nearest and marked with <see cref="About"/>; what is exact in the other unit is given in that one, with its
/// symbol. Where both units are asked for, the second stands in brackets, to the nearest 0.1 mm or 1/64 in (dual dimensions, ASME
/// Y14.5, from memory).
/// </remarks>
/// <param name="unit">The unit that the drawing is in.</param>
/// <param name="bothUnits">Whether the other unit stands behind, in brackets.</param>
internal sealed class DimensionText(LengthUnit unit, bool bothUnits)
{
    /// <summary>Stands before what is not exact.</summary>
    public const string About = LengthText.About;

    /// <summary>Whether anything that was written is not exact.</summary>
    public bool HasRounded { get; private set; }

    /// <summary>Whether the other unit stands behind, in brackets.</summary>
    public bool BothUnits => bothUnits;

    /// <summary>The unit that the drawing is in.</summary>
    public LengthUnit Unit => unit;

    private LengthUnit Other => unit == LengthUnit.Inch ? LengthUnit.Millimetre : LengthUnit.Inch;

    /// <summary>Writes one length, such as <c>1 3⁄8</c> or <c>1 3⁄8 [34.9]</c>.</summary>
    public string Write(Position length)
    {
        var first = WriteFirst(length);
        return bothUnits ? $"{first} [{WriteNearest(length.Nanometres, Other)}]" : first;
    }

    /// <summary>Writes a length that occurs several times, such as <c>4 x 3⁄8</c>.</summary>
    public string Write(Position length, int count) =>
        count == 1 ? Write(length) : string.Create(CultureInfo.InvariantCulture, $"{count} x {Write(length)}");

    /// <summary>Writes a size, width first, such as <c>1 3⁄8 x 2</c>, and the same in the other unit behind it.</summary>
    public string WriteSize(Position width, Position height)
    {
        var first = $"{WriteFirst(width)} x {WriteFirst(height)}";
        return bothUnits ? $"{first} [{WriteNearest(width.Nanometres, Other)} x {WriteNearest(height.Nanometres, Other)}]" : first;
    }

    private string WriteFirst(Position length)
    {
        if (LengthText.IsOnRuler(length.Nanometres, unit))
        {
            return WriteNearest(length.Nanometres, unit);
        }

        if (LengthText.IsOnRuler(length.Nanometres, Other))
        {
            return $"{WriteNearest(length.Nanometres, Other)} {LengthText.Symbol(Other)}";
        }

        HasRounded = true;
        return About + WriteNearest(length.Nanometres, unit);
    }

    private static string WriteNearest(Rational nanometres, LengthUnit unit) =>
        LengthText.WriteNearest(nanometres, unit).Replace('/', LetteringFont.FractionSlash);
}

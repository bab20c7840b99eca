using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>The maker's own tools.</summary>
public sealed record Drawer
{
    private static readonly Lazy<Drawer> BuiltIn = new(DrawerReader.ReadBuiltIn);

    /// <summary>The drawer that is used when the maker gives none; its sources stand in <c>drawer.json</c>.</summary>
    public static Drawer Default => BuiltIn.Value;

    /// <summary>The file of that drawer, with its comments, to copy and change.</summary>
    public static string DefaultText => new StreamReader(EmbeddedFiles.Open("drawer.json")).ReadToEnd();

    /// <summary>The trimmer's increment on inch formats; the default is 1/16 in.</summary>
    public required Length InchIncrement { get; init; }

    /// <summary>The trimmer's increment on metric formats; the default is 1 mm.</summary>
    public required Length MetricIncrement { get; init; }

    /// <summary>The dies and punches.</summary>
    public required IReadOnlyList<Die> Dies { get; init; }

    /// <summary>The thicknesses of foam.</summary>
    public required IReadOnlyList<Length> Foam { get; init; }

    /// <summary>How much paper a die needs on every side beyond its own outline.</summary>
    public required Length DieMargin { get; init; }

    /// <summary>The shortest side of a piece that can be held on the trimmer.</summary>
    public required Length SmallestPiece { get; init; }

    /// <summary>The thinnest shaving that the trimmer takes off cleanly.</summary>
    public required Length ThinnestShaving { get; init; }

    /// <summary>How many sheets the trimmer cuts at once.</summary>
    public required int StackLimit { get; init; }

    /// <summary>The increment for a unit.</summary>
    public Length IncrementFor(LengthUnit unit) => unit == LengthUnit.Inch ? InchIncrement : MetricIncrement;
}

/// <summary>A die or punch of one size.</summary>
/// <param name="Kind">The shape it cuts: circle, oval, square, panel (a rectangle), banner, tag, label or frame.</param>
/// <param name="Width">Its width; for a circle the diameter.</param>
/// <param name="Height">Its height; the same as the width for circles and squares.</param>
public sealed record Die(PieceKind Kind, Length Width, Length Height);

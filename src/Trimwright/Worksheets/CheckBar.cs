using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>The two bars on every page by which a maker sees whether it was printed at its true size.</summary>
internal static class CheckBar
{
    /// <summary>What to do with them.</summary>
    public const string Advice = "Measure these bars first. If they are not right, print again at 100\u00a0%.";

    /// <summary>The inch.</summary>
    public static readonly Length Inch = Length.FromInches(1);

    /// <summary>The five centimetres.</summary>
    public static readonly Length FiveCentimetres = Length.FromMillimetres(50);

    /// <summary>How thick the bars are.</summary>
    public static readonly Length Thickness = Length.FromMillimetres(1);

    /// <summary>How far apart they are.</summary>
    public static readonly Length Gap = Length.FromMillimetres(6);
}

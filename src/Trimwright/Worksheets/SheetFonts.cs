using Trimwright.Drawing.Lettering;
using Trimwright.Worksheets.Pdf;

namespace Trimwright.Worksheets;

/// <summary>The fonts that come with the program, so that a worksheet looks the same on every machine.</summary>
internal static class SheetFonts
{
    private static readonly Lazy<TrueTypeFont> LoadedPlain = new(() => Load("GentiumBookBasic", "GenBkBasR.ttf"));
    private static readonly Lazy<TrueTypeFont> LoadedBold = new(() => Load("GentiumBookBasic-Bold", "GenBkBasB.ttf"));
    private static readonly Lazy<TrueTypeFont> LoadedLettering = new(() => new("RoutedGothic", LetteringFont.ReadResource()));

    /// <summary>The font of running text.</summary>
    public static TrueTypeFont Plain => LoadedPlain.Value;

    /// <summary>The font of headings.</summary>
    public static TrueTypeFont Bold => LoadedBold.Value;

    /// <summary>The font of drawings.</summary>
    public static TrueTypeFont Lettering => LoadedLettering.Value;

    private static TrueTypeFont Load(string name, string resource) => new(name, SheetFiles.Read(resource));
}

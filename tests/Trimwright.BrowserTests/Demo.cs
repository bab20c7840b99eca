using System.Runtime.CompilerServices;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.BrowserTests;

/// <summary>The demo layouts.</summary>
internal static class Demo
{
    public static string Root { get; } = FindRoot();

    public static FittedCard Fit(string name)
    {
        var layout = LayoutReader.Read(name + ".json", File.ReadAllBytes(Path.Combine(Root, "layouts", name + ".json")), picture => new(File.ReadAllBytes(Path.Combine(Root, "layouts", picture)))).Layout!;
        return Fitter.Fit(layout, Drawer.Default).Card!;
    }

    private static string FindRoot([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}

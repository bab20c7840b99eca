using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Tests.Fitting;

/// <summary>Fits layouts written in a test.</summary>
internal static class FitHelper
{
    public static Layout Read(string json)
    {
        var reading = LayoutReader.Read("test.json", Encoding.UTF8.GetBytes(json));
        Assert.True(reading.Layout is not null, string.Join('\n', reading.Diagnostics.Select(DiagnosticText.OneLine)));
        return reading.Layout!;
    }

    public static Layout Demo(string name) =>
        LayoutReader.Read(name + ".json", File.ReadAllBytes(Repository.Path("layouts", name + ".json")), picture => new(File.ReadAllBytes(Repository.Path("layouts", picture)))).Layout!;

    public static FittedCard Fit(string json, string? format = null, Holding? holding = null) => Fit(Read(json), format, holding);

    public static FittedCard Fit(Layout layout, string? format = null, Holding? holding = null)
    {
        var result = TryFit(layout, format, holding);
        Assert.True(result.Card is not null, string.Join('\n', result.Diagnostics.Select(DiagnosticText.OneLine)));
        return result.Card!;
    }

    public static FitResult TryFit(Layout layout, string? format = null, Holding? holding = null) => Fitter.Fit(
        layout,
        format is null ? layout.Format : CardFormats.Find(format, layout.Unit)!,
        holding ?? layout.Holding,
        Drawer.Default);

    /// <summary>A layout of one paper with the pieces and rules given.</summary>
    public static string Layout(string pieces, string rules = "", string format = "A2", string held = "portrait", string reveal = "1/8", string units = "in") => $$"""
        {
          "title": "test", "format": "{{format}}", "held": "{{held}}", "units": "{{units}}", "reveal": "{{reveal}}",
          "base": { "paper": "p" },
          "papers": { "p": { "kind": "cardstock", "tone": "white" } },
          "pieces": [ {{pieces}} ],
          "rules": [ {{rules}} ]
        }
        """;
}

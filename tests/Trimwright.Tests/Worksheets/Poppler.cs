using System.Diagnostics;
using System.Globalization;

namespace Trimwright.Tests.Worksheets;

/// <summary>A test that reads a PDF with the tools of the Poppler project; where they are not installed it is left out, except on a build server.</summary>
public sealed class PopplerTheoryAttribute : TheoryAttribute
{
    public PopplerTheoryAttribute() => Skip = Poppler.Missing;
}

/// <inheritdoc cref="PopplerTheoryAttribute"/>
public sealed class PopplerFactAttribute : FactAttribute
{
    public PopplerFactAttribute() => Skip = Poppler.Missing;
}

/// <summary>A second, independent reader of our PDFs: pdfinfo, pdffonts, pdftotext and pdftoppm (Debian: poppler-utils).</summary>
internal static class Poppler
{
    /// <summary>Why tests are left out, or null. A build server must have the tools: there the tests run, and fail without them.</summary>
    public static string? Missing { get; } = IsThere() || Environment.GetEnvironmentVariable("CI") == "true"
        ? null : "pdftoppm is not installed (Debian: apt-get install poppler-utils)";

    public static string Info(byte[] pdf, params string[] options) => Text("pdfinfo", pdf, path => [.. options, path]);

    public static string Fonts(byte[] pdf) => Text("pdffonts", pdf, path => [path]);

    /// <summary>The text of each page.</summary>
    public static string[] Pages(byte[] pdf) =>
        Text("pdftotext", pdf, path => [path, "-"]).TrimEnd('\f').Split('\f');

    /// <summary>A part of a page in shades of grey; places and sizes in pixels.</summary>
    public static GreyPicture Picture(byte[] pdf, int page, int dotsPerInch, (int Left, int Top, int Width, int Height)? part = null)
    {
        var number = page.ToString(CultureInfo.InvariantCulture);
        string[] crop = part is { } p
            ? ["-x", Whole(p.Left), "-y", Whole(p.Top), "-W", Whole(p.Width), "-H", Whole(p.Height)] : [];
        return new(Run("pdftoppm", pdf, path => ["-r", Whole(dotsPerInch), "-gray", "-f", number, "-l", number, "-singlefile", .. crop, path]));
    }

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Text(string tool, byte[] pdf, Func<string, string[]> arguments) =>
        System.Text.Encoding.UTF8.GetString(Run(tool, pdf, arguments));

    private static byte[] Run(string tool, byte[] pdf, Func<string, string[]> arguments)
    {
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(file, pdf);
            using var process = Process.Start(new ProcessStartInfo(tool, arguments(file))
            {
                RedirectStandardOutput = true, RedirectStandardError = true,
            })!;
            var complaint = process.StandardError.ReadToEndAsync();
            using var output = new MemoryStream();
            process.StandardOutput.BaseStream.CopyTo(output);
            process.WaitForExit();

            // Poppler complains of anything in a PDF that is not as the standard says, and goes on: for us that is a failure.
            Assert.Equal((0, ""), (process.ExitCode, complaint.Result));
            return output.ToArray();
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static bool IsThere() => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => File.Exists(Path.Combine(folder, "pdftoppm")) || File.Exists(Path.Combine(folder, "pdftoppm.exe")));
}

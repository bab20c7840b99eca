using Microsoft.Playwright;

namespace Trimwright.BrowserTests;

/// <summary>The browser of the machine, without a window, shared by the tests of a class.</summary>
public sealed class Browser : IAsyncLifetime
{
    private static readonly string[] Places =
        ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium"];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where it is: named by TRIMWRIGHT_CHROMIUM, or where Debian and others put it; null if nowhere.</summary>
    public static string? Path { get; } =
        Environment.GetEnvironmentVariable("TRIMWRIGHT_CHROMIUM") is { Length: > 0 } named ? named : Array.Find(Places, File.Exists);

    /// <summary>Why tests are skipped; null where they run.</summary>
    internal static string? WhyNot => Path is not null || Environment.GetEnvironmentVariable("CI") is { Length: > 0 }
        ? null : "there is no Chromium on this machine (Debian: apt-get install chromium)";

    /// <inheritdoc/>
    public async Task InitializeAsync()
    {
        if (WhyNot is not null)
        {
            return;
        }

        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Path ?? throw new InvalidOperationException("there is no Chromium on this machine"),
            // Root, as in a container, may not use the sandbox; the pages are our own. Colours are not fitted to a screen.
            Args = ["--no-sandbox", "--force-color-profile=srgb", "--font-render-hinting=none", "--disable-lcd-text"],
        });
    }

    /// <inheritdoc/>
    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    /// <summary>Opens a page of its own, without network.</summary>
    public async Task<IPage> NewPageAsync(BrowserNewPageOptions? options = null)
    {
        var page = await _browser!.NewPageAsync(options);
        await page.Context.SetOfflineAsync(true);
        return page;
    }

    /// <summary>Renders an SVG as the browser shows it by itself, at so many dots per inch of the drawing.</summary>
    /// <param name="svg">The text of the file.</param>
    /// <param name="dpi">A multiple of 96, the resolution that browsers count with.</param>
    /// <returns>The picture, which covers whole pixels, and the size that the browser gives the drawing.</returns>
    public async Task<(byte[] Png, double WidthInches, double HeightInches)> RenderAsync(string svg, int dpi)
    {
        var page = await NewPageAsync(new() { DeviceScaleFactor = dpi / 96f, ViewportSize = new() { Width = 1600, Height = 1600 } });
        var folder = Directory.CreateTempSubdirectory("trimwright-");
        try
        {
            var file = System.IO.Path.Combine(folder.FullName, "drawing.svg");
            await File.WriteAllTextAsync(file, svg);
            await page.GotoAsync(new Uri(file).AbsoluteUri);
            var box = await page.Locator("svg").First.BoundingBoxAsync();
            var png = await page.Locator("svg").First.ScreenshotAsync(new() { OmitBackground = true });
            return (png, box!.Width / 96.0, box.Height / 96.0);
        }
        finally
        {
            folder.Delete(recursive: true);
            await page.CloseAsync();
        }
    }
}

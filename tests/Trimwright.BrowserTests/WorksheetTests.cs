using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Trimwright.Worksheets;

namespace Trimwright.BrowserTests;

/// <summary>
/// The worksheet as a page, looked at by Chromium and by axe, which knows the rules of WCAG 2.2: structure, names, contrast, in light and dark,
/// on a phone and on a desk.
/// </summary>
public sealed class WorksheetTests(Browser browser) : IClassFixture<Browser>
{
    [BrowserTheory]
    [InlineData("bean-row", ColorScheme.Light, 320)]
    [InlineData("bean-row", ColorScheme.Dark, 320)]
    [InlineData("bean-row", ColorScheme.Light, 1280)]
    [InlineData("bean-row", ColorScheme.Dark, 1280)]
    [InlineData("marrow-show", ColorScheme.Light, 1280)]
    [InlineData("sun-over-plot", ColorScheme.Dark, 320)]
    public async Task Axe_finds_nothing_to_mend(string demo, ColorScheme scheme, int width)
    {
        var page = await OpenAsync(demo, scheme, width);
        var result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(
            violation => $"{violation.Id}: {violation.Help}: {string.Join("; ", violation.Nodes.Take(3).Select(node => node.Html[..Math.Min(node.Html.Length, 160)]))}")));
        Assert.True(result.Passes.Length > 10, "axe looked at hardly anything");
        await page.CloseAsync();
    }

    [BrowserFact]
    public async Task There_is_one_first_heading_and_no_level_is_skipped()
    {
        var page = await OpenAsync("bean-row", ColorScheme.Light, 1280);
        var levels = await page.EvaluateAsync<int[]>("() => [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map(h => Number(h.tagName[1]))");
        Assert.Single(levels, level => level == 1);
        Assert.Equal(1, levels[0]);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1));
        await page.CloseAsync();
    }

    [BrowserFact]
    public async Task Nothing_is_wider_than_a_phone()
    {
        var page = await OpenAsync("bean-row", ColorScheme.Light, 320);
        Assert.True(await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth") <= 320);
        await page.CloseAsync();
    }

    [BrowserFact]
    public async Task Nothing_is_asked_of_the_network_and_there_is_no_script()
    {
        var html = Html("bean-row");
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        var page = await browser.NewPageAsync();
        var asked = new List<string>();
        page.Request += (_, request) => asked.Add(request.Url);
        await ShowAsync(page, html);
        Assert.DoesNotContain(asked, url => url.StartsWith("http", StringComparison.Ordinal));
        await page.CloseAsync();
    }

    [BrowserFact]
    public async Task Drawings_and_bars_are_true_to_size_in_print()
    {
        var page = await OpenAsync("bean-row", ColorScheme.Light, 1280);
        await page.EmulateMediaAsync(new() { Media = Media.Print });

        // The card on the face drawing is 4 1/4 in wide, and an inch is 96 pixels of the page (CSS Values and Units 4).
        var width = await page.EvaluateAsync<double>(
            "() => document.querySelector('[id$=\"card\"] rect, rect[id$=\"card\"]').getBoundingClientRect().width");
        Assert.InRange(width / 96, 4.25 - 0.01, 4.25 + 0.02);
        await page.CloseAsync();
    }

    private static string Html(string demo)
    {
        var card = Demo.Fit(demo);
        return WorksheetHtml.Write(WorksheetMaker.Make(card, PaperSize.For(card.Unit)));
    }

    private async Task<IPage> OpenAsync(string demo, ColorScheme scheme, int width)
    {
        var page = await browser.NewPageAsync(new() { ColorScheme = scheme, ViewportSize = new() { Width = width, Height = 800 } });
        await ShowAsync(page, Html(demo));
        return page;
    }

    private static async Task ShowAsync(IPage page, string html)
    {
        var folder = Directory.CreateTempSubdirectory("trimwright-");
        try
        {
            var file = Path.Combine(folder.FullName, "worksheet.html");
            await File.WriteAllTextAsync(file, html);
            await page.GotoAsync(new Uri(file).AbsoluteUri);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}

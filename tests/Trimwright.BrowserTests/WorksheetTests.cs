using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Trimwright.Trimming;
using Trimwright.Worksheets;

namespace Trimwright.BrowserTests;

/// <summary>The worksheet as a page of HTML, looked at by Chromium without network, and by axe-core, which checks WCAG.</summary>
public sealed class WorksheetTests(Browser browser) : IClassFixture<Browser>
{
    private static readonly string[] Demos = ["bean-row", "trellis", "compost-heap", "marrow-show"];

    public static TheoryData<string, ColorScheme, int> Views()
    {
        var views = new TheoryData<string, ColorScheme, int>();
        foreach (var demo in Demos)
        {
            foreach (var scheme in (ColorScheme[])[ColorScheme.Light, ColorScheme.Dark])
            {
                views.Add(demo, scheme, 320);
                views.Add(demo, scheme, 1280);
            }
        }

        return views;
    }

    [BrowserTheory]
    [MemberData(nameof(Views))]
    public async Task No_rule_of_access_is_broken_in_light_or_dark_narrow_or_wide(string demo, ColorScheme scheme, int width)
    {
        await Open(demo, new() { ColorScheme = scheme, ViewportSize = new() { Width = width, Height = 800 } }, async page =>
        {
            var result = await page.RunAxe();
            Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(found =>
                $"{found.Id}: {found.Help}: {string.Join("; ", found.Nodes.Take(3).Select(node => node.Html[..Math.Min(200, node.Html.Length)]))}")));
            Assert.True(result.Passes.Length > 20, "hardly a rule was tried");

            // The page itself is never wider than the window (WCAG 2.2, 1.4.10); only a drawing may be moved sideways.
            Assert.Equal(width, await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth"));
        });
    }

    [BrowserFact]
    public async Task There_is_one_first_heading_none_is_skipped_and_every_drawing_has_a_name()
    {
        await Open("bean-row", new(), async page =>
        {
            var levels = await page.EvaluateAsync<int[]>("() => [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map(h => +h.tagName[1])");
            Assert.Equal(1, levels.Count(level => level == 1));
            Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, -5, 1));
            var ids = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('[id]')].map(e => e.id)");
            Assert.Equal(ids.Length, ids.Distinct().Count());
            var names = await page.EvaluateAsync<string[]>(
                "() => [...document.querySelectorAll('svg[role=img]')].map(s => s.getAttribute('aria-labelledby').split(' ').map(i => document.getElementById(i).textContent).join(': '))");
            Assert.True(names.Length >= 5);
            Assert.All(names, name => Assert.True(name.Length > 20, name));
            Assert.Equal(0, await page.Locator("script").CountAsync());
        });
    }

    [BrowserFact]
    public async Task The_page_asks_for_nothing_outside_itself()
    {
        await Open("bean-row", new(), async page =>
        {
            List<string> asked = [];
            page.Request += (_, request) => asked.Add(request.Url);
            await page.ReloadAsync();
            Assert.All(asked, url => Assert.True(url.StartsWith("file:", StringComparison.Ordinal) || url.StartsWith("data:", StringComparison.Ordinal), url));
            Assert.Single(asked, url => url.StartsWith("file:", StringComparison.Ordinal));
        });
    }

    [BrowserFact]
    public async Task Every_size_of_the_list_stands_on_the_page()
    {
        await Open("marrow-show", new(), async page =>
        {
            var text = await page.InnerTextAsync("table");
            Assert.All(
                TrimTable.FromList(TrimList.FromCard(Demo.Fit("marrow-show"))).Rows,
                row => Assert.Contains(row[3], text, StringComparison.Ordinal));
        });
    }

    [BrowserTheory]
    [InlineData("bean-row")]
    [InlineData("rain-gauge")]
    [InlineData("compost-heap")]
    [InlineData("scarecrow")]
    public async Task Printed_bars_and_true_drawings_have_their_size_and_no_drawing_is_higher_than_a_page(string demo)
    {
        const double PixelsPerMillimetre = 96 / 25.4;
        var sheet = WorksheetMaker.Make(Demo.Fit(demo), PaperSize.Letter);
        await Open(demo, new(), async page =>
        {
            await page.EmulateMediaAsync(new() { Media = Media.Print });
            var bars = await page.Locator(".bars svg").AllAsync();
            Assert.NotEmpty(bars);
            foreach (var bar in bars)
            {
                // An inch, the gap of 6 mm and five centimetres.
                Assert.Equal((25.4 + 6 + 50) * PixelsPerMillimetre, (await bar.BoundingBoxAsync())!.Width, tolerance: 0.1);
            }

            foreach (var figure in sheet.Sections.SelectMany(section => section.Parts).OfType<WorksheetFigure>())
            {
                var drawing = page.Locator($"svg[aria-labelledby^='{figure.Name}-title ']");
                var box = (await drawing.BoundingBoxAsync())!;
                var caption = await page.Locator("figure").Filter(new() { Has = drawing }).Locator("figcaption").InnerTextAsync();
                if (caption.Contains("True to size", StringComparison.Ordinal))
                {
                    Assert.Equal(figure.Drawing.Sheet.Width.ToNearestNanometre().Nanometres / 1e6 * PixelsPerMillimetre, box.Width, tolerance: 0.1);
                    Assert.Equal(figure.Drawing.Sheet.Height.ToNearestNanometre().Nanometres / 1e6 * PixelsPerMillimetre, box.Height, tolerance: 0.1);
                }

                // A page of Letter is 11 in high and has margins of 12 mm; what is not higher, and may not be broken, is not split.
                Assert.True(box.Height <= ((11 * 25.4) - 24) * PixelsPerMillimetre);
                Assert.Equal("avoid", await page.Locator("figure").Filter(new() { Has = drawing }).EvaluateAsync<string>("f => getComputedStyle(f).breakInside"));
            }
        }, sheet);
    }

    private async Task Open(string demo, BrowserNewPageOptions options, Func<IPage, Task> look, Worksheet? sheet = null)
    {
        var page = await browser.NewPageAsync(options);
        var folder = Directory.CreateTempSubdirectory("trimwright-");
        try
        {
            var file = Path.Combine(folder.FullName, "worksheet.html");
            await File.WriteAllTextAsync(file, WorksheetHtml.Write(sheet ?? WorksheetMaker.Make(Demo.Fit(demo), PaperSize.Letter)));
            await page.GotoAsync(new Uri(file).AbsoluteUri);
            await look(page);
        }
        finally
        {
            folder.Delete(recursive: true);
            await page.CloseAsync();
        }
    }
}

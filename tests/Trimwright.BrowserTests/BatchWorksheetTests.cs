using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Trimwright.Batches;
using Trimwright.Layouts;
using Trimwright.Worksheets;

namespace Trimwright.BrowserTests;

/// <summary>The worksheets of the demo batches as pages of HTML, looked at by Chromium without network, and by axe-core, which checks WCAG.</summary>
public sealed class BatchWorksheetTests(Browser browser) : IClassFixture<Browser>
{
    private const double PixelsPerMillimetre = 96 / 25.4;

    private static readonly string[] Demos = ["seed-swap", "from-strips"];

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

    public static TheoryData<string> Batches => [.. Demos];

    [BrowserTheory]
    [MemberData(nameof(Views))]
    public async Task No_rule_of_access_is_broken_in_light_or_dark_narrow_or_wide(string demo, ColorScheme scheme, int width)
    {
        await Open(demo, new() { ColorScheme = scheme, ViewportSize = new() { Width = width, Height = 800 } }, async (page, _, _) =>
        {
            var result = await page.RunAxe();
            Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(found =>
                $"{found.Id}: {found.Help}: {string.Join("; ", found.Nodes.Take(3).Select(node => node.Html[..Math.Min(200, node.Html.Length)]))}")));
            Assert.True(result.Passes.Length > 20, "hardly a rule was tried");

            // The page itself is never wider than the window (WCAG 2.2, 1.4.10).
            Assert.Equal(width, await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth"));
        });
    }

    [BrowserTheory]
    [MemberData(nameof(Batches))]
    public async Task Boxes_headings_and_maps_have_names_of_their_own(string demo)
    {
        await Open(demo, new(), async (page, schedule, sheet) =>
        {
            var boxes = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('input[type=checkbox]')].map(box => box.getAttribute('aria-label'))");
            Assert.Equal(schedule.Strokes, boxes.Length);
            Assert.Equal(boxes.Length, boxes.Distinct().Count());
            var levels = await page.EvaluateAsync<int[]>("() => [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map(h => +h.tagName[1])");
            Assert.Equal(Enumerable.Repeat(2, sheet.Sections.Count).Prepend(1), levels);
            var ids = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('[id]')].map(e => e.id)");
            Assert.Equal(ids.Length, ids.Distinct().Count());
            var names = await page.EvaluateAsync<string[]>(
                "() => [...document.querySelectorAll('svg[role=img]')].map(s => s.getAttribute('aria-labelledby').split(' ').map(i => document.getElementById(i).textContent).join(': '))");
            Assert.Equal(sheet.Sections.SelectMany(section => section.Parts).OfType<WorksheetFigures>().Sum(figures => figures.Figures.Count), names.Length);
            Assert.All(names, name => Assert.True(name.Length > 20, name));
            Assert.Equal(0, await page.Locator("script").CountAsync());
        });
    }

    [BrowserTheory]
    [MemberData(nameof(Batches))]
    public async Task Printed_maps_stand_apart_at_the_size_they_say_and_stay_on_the_page_of_their_cuts(string demo)
    {
        // A page of Letter less its margins of 8 and 12 mm.
        var (width, height) = (((8.5 * 25.4) - 16) * PixelsPerMillimetre, ((11 * 25.4) - 24) * PixelsPerMillimetre);
        await Open(demo, new() { ViewportSize = new() { Width = (int)Math.Ceiling(width), Height = 1000 } }, async (page, _, sheet) =>
        {
            await page.EmulateMediaAsync(new() { Media = Media.Print });
            foreach (var bar in await page.Locator(".bars svg").AllAsync())
            {
                // An inch, the gap of 6 mm and five centimetres.
                Assert.Equal((25.4 + 6 + 50) * PixelsPerMillimetre, (await bar.BoundingBoxAsync())!.Width, tolerance: 0.1);
            }

            foreach (var figures in sheet.Sections.SelectMany(section => section.Parts).OfType<WorksheetFigures>())
            {
                var boxes = new List<LocatorBoundingBoxResult>();
                foreach (var figure in figures.Figures)
                {
                    var box = (await page.Locator($"svg[aria-labelledby^='{figure.Name}-title ']").BoundingBoxAsync())!;
                    Assert.Equal(figure.Drawing.Sheet.Width.ToNearestNanometre().Nanometres / 1e6 * PixelsPerMillimetre, box.Width, tolerance: 0.1);
                    Assert.Equal(figure.Drawing.Sheet.Height.ToNearestNanometre().Nanometres / 1e6 * PixelsPerMillimetre, box.Height, tolerance: 0.1);
                    Assert.True(box.X >= 0 && box.X + box.Width <= width, $"{figure.Name} is not on the page");
                    Assert.DoesNotContain(boxes, other =>
                        box.X < other.X + other.Width && other.X < box.X + box.Width && box.Y < other.Y + other.Height && other.Y < box.Y + box.Height);
                    boxes.Add(box);
                }
            }

            foreach (var together in await page.Locator(".together").AllAsync())
            {
                Assert.True((await together.BoundingBoxAsync())!.Height <= height);
                Assert.Equal("avoid", await together.EvaluateAsync<string>("section => getComputedStyle(section).breakInside"));
            }

            // No table reaches over the edge of the paper.
            foreach (var table in await page.Locator("table").AllAsync())
            {
                var box = (await table.BoundingBoxAsync())!;
                Assert.True(box.X >= 0 && box.X + box.Width <= width + 0.5, $"a table ends at {box.X + box.Width} of {width}");
            }
        });
    }

    [BrowserTheory]
    [MemberData(nameof(Batches))]
    public async Task Every_mark_and_setting_stands_on_the_page(string demo)
    {
        await Open(demo, new(), async (page, schedule, _) =>
        {
            var unit = schedule.Plan.Batch.Batch.Unit;
            var rows = await page.EvaluateAsync<string[][]>("() => [...document.querySelectorAll('table.cuts tbody tr')].map(row => [...row.children].map(cell => cell.textContent))");
            Assert.Equal(schedule.Steps.Count, rows.Length);
            var setting = "";
            foreach (var (row, step) in rows.Zip(schedule.Steps))
            {
                setting = row[1] == "same" ? setting : row[1];
                Assert.Equal(Measures.LengthText.WriteBare(step.Setting, unit), setting);
                Assert.EndsWith(step.Mark, row[2], StringComparison.Ordinal);
            }
        });
    }

    private static TrimSchedule Plan(string name)
    {
        var folder = Path.Combine(Demo.Root, "layouts", "batches");
        (string, byte[])? Read(string file) => (file, File.ReadAllBytes(Path.Combine(folder, file)));
        var batch = BatchReader.Read(name + ".json", File.ReadAllBytes(Path.Combine(folder, name + ".json")), Read).Batch!;
        return TrimSchedule.FromPlan(BatchPlanner.Plan(BatchFitter.Fit(batch, Drawer.Default, Read).Batch!).Plan!);
    }

    private async Task Open(string demo, BrowserNewPageOptions options, Func<IPage, TrimSchedule, Worksheet, Task> look)
    {
        var schedule = Plan(demo);
        var sheet = BatchWorksheet.Make(schedule, PaperSize.Letter);
        var page = await browser.NewPageAsync(options);
        var folder = Directory.CreateTempSubdirectory("trimwright-");
        try
        {
            var file = Path.Combine(folder.FullName, "schedule.html");
            await File.WriteAllTextAsync(file, WorksheetHtml.Write(sheet));
            await page.GotoAsync(new Uri(file).AbsoluteUri);
            await look(page, schedule, sheet);
        }
        finally
        {
            folder.Delete(recursive: true);
            await page.CloseAsync();
        }
    }
}

using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class LayoutReaderTests
{
    [Fact]
    public void The_inch_sample_is_read_in_full()
    {
        var layout = Sample.Good(File.ReadAllText(Path.Combine(Sample.Folder(), "bean-row.json")));
        Assert.Equal("Bean row thank-you", layout.Title);
    }

    [Fact]
    public void The_metric_sample_is_read_in_full()
    {
        var layout = Sample.Good(File.ReadAllText(Path.Combine(Sample.Folder(), "trellis.json")));
        Assert.Equal("square 144 mm", layout.Format.Name);
    }
}

namespace Trimwright.BrowserTests;

/// <summary>
/// A test that opens a page in Chromium. Where there is none it is skipped and says so; with the environment variable CI set it is not
/// skipped but fails, so that the checks cannot go missing unseen.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Browser.WhyNot;
}

/// <summary>As <see cref="BrowserFactAttribute"/>, for several rows of data.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Browser.WhyNot;
}

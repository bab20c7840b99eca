using System.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Benchmarks;

/// <summary>Fits one layout 1,000 times in one process and prints the peak of its memory.</summary>
internal static class MemoryOfManyFits
{
    public static int Run()
    {
        var layout = Samples.Read(Samples.TwelvePieces);
        for (var i = 0; i < 1_000; i++)
        {
            if (Fitter.Fit(layout, Drawer.Default).Card is null)
            {
                throw new InvalidOperationException("the sample does not fit");
            }
        }

        Console.WriteLine($"1,000 fits, peak working set {Process.GetCurrentProcess().PeakWorkingSet64 / 1_000_000} MB");
        return 0;
    }
}

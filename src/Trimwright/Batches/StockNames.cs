using System.Globalization;
using Trimwright.Layouts.Reading;

namespace Trimwright.Batches;

/// <summary>Names of sheets and offcuts that nobody has chosen.</summary>
internal static class StockNames
{
    /// <summary>The name with the first number behind it that makes it free: <c>dots-offcut-1</c>, where others stand in the way <c>dots-offcut-2</c>.</summary>
    /// <param name="stem">What comes before the number; shortened where the name would be longer than names may be.</param>
    /// <param name="first">The first number to try.</param>
    /// <param name="isTaken">Whether a name is taken.</param>
    public static string Numbered(string stem, int first, Func<string, bool> isTaken)
    {
        for (var number = first; ; number++)
        {
            var end = string.Create(CultureInfo.InvariantCulture, $"-{number}");
            var name = (stem.Length + end.Length <= Names.Longest ? stem : stem[..(Names.Longest - end.Length)].TrimEnd('-')) + end;
            if (!isTaken(name))
            {
                return name;
            }
        }
    }

    /// <summary>The name itself if it is free, otherwise with a number from 2 on.</summary>
    public static string Free(string name, Func<string, bool> isTaken) => isTaken(name) ? Numbered(name, 2, isTaken) : name;
}

using System.Globalization;
using Trimwright.Variants;

namespace Trimwright.Balance;

/// <summary>Which variants were left out, and why, as sentences.</summary>
internal static class LeftOut
{
    /// <summary>A line for each mirror that was left out, and one for all the other combinations.</summary>
    public static IReadOnlyList<string> Of(IReadOnlyList<LeftOutVariant> variants)
    {
        var single = variants.Where(variant => variant.IsMirrorAlone && variant.Why != LeftOutFor.LooksAlike).ToList();
        var others = variants.Except(single).GroupBy(variant => variant.Why).OrderBy(group => group.Key).Select(group => Told(group.Key, group.Count())).ToList();
        List<string> lines = [.. single.Select(variant => $"{variant.Name}: {variant.Reason}")];
        if (others.Count > 0)
        {
            lines.Add($"{(single.Count > 0 ? "of the other combinations, " : "")}{string.Join("; ", others)}");
        }

        return lines;
    }

    private static string Told(LeftOutFor why, int count)
    {
        var one = count == 1;
        return string.Create(CultureInfo.InvariantCulture, $"{count} {why switch
        {
            LeftOutFor.DoesNotFit => one ? "does not fit" : "do not fit",
            LeftOutFor.Misses => one ? "misses wishes by more than as drawn" : "miss wishes by more than as drawn",
            LeftOutFor.Covers => "would cover lettering or a picture",
            LeftOutFor.SpotTaken => "would put an accent where another piece is",
            _ => one ? "looks like one that is here" : "look like one that is here",
        }}");
    }
}

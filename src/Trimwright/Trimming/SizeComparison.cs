using Trimwright.Fitting;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>
/// The sizes of one layout on several formats, side by side: a row for the card and for each piece and mat, a column for each fit.
/// </summary>
/// <param name="Headings">The headings: <c>piece</c>, then the names of the fits.</param>
/// <param name="Rows">The cells; a dash where a format could not be fitted.</param>
public sealed record SizeComparison(IReadOnlyList<string> Headings, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>Compares fits of one layout, or of mirrored forms of it, by the names of the pieces.</summary>
    /// <param name="fits">The fits by name; null where there is none. At least one is not null.</param>
    public static SizeComparison Of(IReadOnlyList<(string Name, FittedCard? Card)> fits)
    {
        var lists = fits.Select(fit => fit.Card is null ? null : TrimList.FromCard(fit.Card)).ToList();
        var names = new List<string>();
        foreach (var line in lists.OfType<TrimList>().SelectMany(list => list.Lines))
        {
            if (!names.Contains(line.Name))
            {
                names.Add(line.Name);
            }
        }

        return new(
            ["piece", .. fits.Select(fit => fit.Name)],
            [.. names.Select(name => (IReadOnlyList<string>)[name, .. lists.Select(list => Cell(list, name))])]);
    }

    private static string Cell(TrimList? list, string name)
    {
        var line = list?.Lines.FirstOrDefault(line => line.Name == name);
        return line is null ? "-"
            : line.Shape == "circle" ? $"{LengthText.Write(line.Width, list!.Card.Unit)} across"
            : LengthText.WriteSize(line.Width, line.Height, list!.Card.Unit);
    }
}

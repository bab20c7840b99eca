using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>What a fit has to say for itself, as sentences for the maker: what gave way, what is loose, what was carried.</summary>
public static class FitReport
{
    /// <summary>The sentences under their headings; empty headings are left out.</summary>
    /// <param name="card">The card.</param>
    /// <param name="cancel">Stops the search for what made wishes give way.</param>
    /// <exception cref="OperationCanceledException">The search was stopped.</exception>
    public static IReadOnlyList<(string Heading, IReadOnlyList<string> Lines)> Of(FittedCard card, CancellationToken cancel = default)
    {
        var reasons = FitExplainer.Explain(card, cancel);
        var sections = new List<(string, IReadOnlyList<string>)>
        {
            ("look before you cut: something lies over lettering or a picture", [.. Covering.Of(card).Select(Covered)]),
            ("gave way", [.. card.GaveWay.SelectMany((note, i) => (string[])[GaveWay(note, card.Unit), .. Why(i < reasons.Count ? reasons[i] : null)])]),
            ("free choices: nothing pins these, so the middle was taken", [.. card.Loose.Select(note => Loose(note, card.Unit))]),
            ($"carried from {Fitter.FormatWords(card.Layout.Format, card.Layout.Holding)}", [.. card.Carried.Select(note => Carried(note, card.Unit))]),
        };
        return sections.FindAll(section => section.Item2.Count > 0);
    }

    /// <summary>Such as <c>the height of `band` should be 2 in and is 1 15/16 in, 1/16 in less (line 12)</c>.</summary>
    public static string GaveWay(GaveWayNote note, LengthUnit unit)
    {
        var verb = note.Strength == Strength.Should ? "should" : "may";
        var direction = note.Got < note.Wanted ? "less" : "more";
        var because = note.Because is null ? "" : $", although {note.Because}";
        return $"{note.What} {verb} be {Text(note.Wanted, unit)} and is {Text(note.Got, unit)}, {Text(note.Miss, unit)} {direction}{because} ({Where(note.Source)})";
    }

    /// <summary>Such as <c>because `band` spans `ground` across (line 9)</c>; a line for each reason, none where there is no reason to tell.</summary>
    public static IEnumerable<string> Why(IReadOnlyList<Reason>? reasons)
    {
        for (var i = 0; i < reasons?.Count; i++)
        {
            var where = reasons[i].Source is { } place ? $" ({Where(place)})" : "";
            var text = reasons[i].GaveWayToo ? $"{reasons[i].Text} would have to give way by more" : reasons[i].Text;
            yield return $"    {(i == 0 ? "because" : "and")} {text}{where}";
        }
    }

    // Such as "`sign` lies in part under `flag` (line 9)".
    private static string Covered((FittedPiece Piece, IReadOnlyList<FittedPiece> By) note) =>
        FormattableString.Invariant($"`{note.Piece.Name}` lies in part under {WordList.Quoted(note.By.Select(piece => piece.Name))} ({Where(note.Piece.Source.Source)})");

    /// <summary>Such as <c>the left edge of `tag`: anything from 0 in to 2 in would do; it is 1 in (line 9)</c>.</summary>
    public static string Loose(LooseNote note, LengthUnit unit) =>
        $"{note.What}: anything from {Text(note.Least, unit)} to {Text(note.Most, unit)} would do; it is {Text(note.Chosen, unit)} ({Where(note.Source)})";

    /// <summary>Such as <c>the height of `band`: 1 3/8 in as drawn, 1 3/4 in now (line 9)</c>.</summary>
    public static string Carried(CarriedNote note, LengthUnit unit)
    {
        var exact = note.InProportion == note.Got ? "" : $" (in exact proportion {Text(note.InProportion, unit)})";
        return $"{note.What}: {Text(note.Drawn, unit)} as drawn, {Text(note.Got, unit)} now{exact} ({Where(note.Source)})";
    }

    // What a file leaves out has no line.
    private static string Where(SourcePlace place) =>
        place.Line == 0 ? "as usual, since the file does not say" : FormattableString.Invariant($"line {place.Line}");

    private static string Text(Position position, LengthUnit unit) => LengthText.Write(position, unit);
}

using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>The texts of all diagnostics of this room, one method a code.</summary>
internal static class FitMessages
{
    public static Diagnostic Clash(string format, IReadOnlyList<Saying> members, IReadOnlyList<string> notes, string? remedy)
    {
        var places = members.OrderBy(member => member.Source, Comparer<SourcePlace>.Create(SourcePlace.Compare)).ToList();
        var first = places[0];
        var message = places.Count == 1
            ? $"this cannot hold on {format}: {FitWords.Said(first)}"
            : $"these {places.Count} cannot all hold on {format}: {string.Join("; ", places.Select(FitWords.Said))}";
        return new("E0301", Severity.Error, message, first.Source)
        {
            Related = [.. places.Skip(1).Select(place => new RelatedPlace(place.Source, FitWords.Said(place)))],
            Notes = notes,
            Remedy = remedy ?? "change the way one of them is placed: no change of a single measure was found that works",
        };
    }

    public static Diagnostic NoDie(Piece piece) =>
        new("E0302", Severity.Error, $"the drawer holds no die that cuts `{piece.Name}`", piece.Source)
        {
            Remedy = $"add a die of that kind to the drawer, or write `\"cut\": \"scissors\"` for `{piece.Name}`",
        };

    public static Diagnostic SearchEnded(SourcePlace place) =>
        new("E0303", Severity.Error, "no fit was found within the search limit, and none was excluded", place)
        {
            Remedy = "pin more sizes with `exactly`, or lay out fewer pieces that depend on one another",
        };

    public static Diagnostic UnknownFoam(Piece piece, Length foam, Drawer drawer) =>
        new("W0301", Severity.Warning, $"the drawer holds no foam {LengthText.Write(foam, LengthText.NaturalUnit(foam))} thick, which `{piece.Name}` asks for", piece.Source)
        {
            Remedy = drawer.Foam.Count == 0
                ? "add the foam to the drawer, or mount it flat"
                : $"use one of {string.Join(", ", drawer.Foam.Select(known => LengthText.Write(known, LengthText.NaturalUnit(known))))}",
        };

    public static Diagnostic NotProved(SourcePlace place, Position gap, LengthUnit unit) =>
        new("W0302", Severity.Warning, $"the fit is the best that was found, at most {LengthText.Write(gap, unit)} of misses from the best possible", place)
        {
            Remedy = "pin more sizes with `exactly` if it does not suit",
        };
}

using System.Globalization;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>
/// How a card is put together, step by step: cut, prepare, glue each piece to its mats, then all of it onto the base from the bottom
/// up, each with its place measured from edges that a ruler can be laid to.
/// </summary>
public static class AssemblyOrder
{
    /// <summary>The steps in order, each a few sentences. Numbers in brackets are those of the trim list.</summary>
    public static IReadOnlyList<string> Of(TrimList list)
    {
        var writer = new Writer(list);
        return [.. writer.Prepare(), .. writer.Mount(), .. writer.Place(), .. writer.Finish()];
    }

    private sealed class Writer(TrimList list)
    {
        private readonly FittedCard _card = list.Card;
        private readonly PlaceWords _places = new(list.Card.Unit);
        private readonly IReadOnlyList<Footing> _footings = Footing.Of(list.Card);

        public IEnumerable<string> Prepare()
        {
            yield return "Cut every piece of the list, tick it off, and pencil its number on the back.";
            var along = _card.Layout.Base.Fold == Edge.Top ? "from side to side" : "up and down";
            yield return $"Card base (1): {list.Lines[0].Notes[0]}. The grain of its paper should run along the fold, {along}: that way it folds cleanly.";
        }

        /// <summary>Lettering, then every piece on its own mats: pieces that are cut alike in one step.</summary>
        public IEnumerable<string> Mount()
        {
            foreach (var line in list.Lines.Where(line => line.Mat == 0 && line.Shape != "card base"))
            {
                var pieces = PiecesOf(line);
                var piece = pieces[0];
                var lettering = piece.Source.Text is { } text
                    ? $"Write or stamp “{text}” on {Named(pieces)} while it still lies loose. " : "";
                if (piece.Mats.Count == 0)
                {
                    if (lettering.Length > 0)
                    {
                        yield return lettering.TrimEnd();
                    }

                    continue;
                }

                var each = pieces.Count > 1 ? "Glue each of " : "Glue ";
                var sentences = new List<string> { $"{lettering}{each}{Named(pieces)} flat in the middle of its mat ({Number(pieces[0], 1)}): {Shows(piece.Mats[0])}" };
                for (var i = 1; i < piece.Mats.Count; i++)
                {
                    sentences.Add($"Then that in the middle of mat {Whole(i + 1)} ({Number(pieces[0], i + 1)}): {Shows(piece.Mats[i])}");
                }

                if (piece.Source.Tail is { Kind: not TailKind.Straight })
                {
                    sentences.Add("Cut the tail of the mats along that of the piece, leaving the same edge");
                }

                yield return string.Join(". ", sentences) + ".";
            }
        }

        /// <summary>Everything onto the card, from the bottom up; the pieces of a row in one step.</summary>
        public IEnumerable<string> Place()
        {
            if (_card.Pieces.Count == 0)
            {
                yield break;
            }

            var fold = _card.Layout.Base.Fold == Edge.Top ? "at the top" : "on the left";
            yield return $"Fold the base and lay it in front of you with the fold {fold}. All that follows is glued to its front.";
            for (var i = 0; i < _card.Pieces.Count; i++)
            {
                var row = _card.Pieces[i].Source.Row;
                var end = i + 1;
                while (row is not null && end < _card.Pieces.Count && _card.Pieces[end].Source.Row == row && Together(i, end))
                {
                    end++;
                }

                yield return end - i > 1 ? PlaceRow(i, end) : PlaceOne(i);
                i = end - 1;
            }
        }

        public IEnumerable<string> Finish()
        {
            yield return _card.Pieces.Any(piece => piece.Source.Lift.Foam is not null)
                ? "Let the card dry lying flat, and put no weight on what stands on foam."
                : "Let the card dry under a heavy book, between two sheets of clean paper.";
        }

        /// <summary>Whether two pieces of a row are glued in one step: to the same thing and in the same way.</summary>
        private bool Together(int first, int other) => _footings[first].On == _footings[other].On
            && _card.Pieces[first].Source.Lift == _card.Pieces[other].Source.Lift
            && _card.Pieces[first].Mats.Count == _card.Pieces[other].Mats.Count;

        private string PlaceOne(int index)
        {
            var (piece, footing) = (_card.Pieces[index], _footings[index]);
            var withMats = piece.Mats.Count switch { 0 => "", 1 => ", on its mat,", _ => ", on its mats," };
            var upright = _card.Layout.PaperNamed(piece.Source.Paper).OneWay ? " Keep its pattern the right way up." : "";
            return $"{How(piece)} {piece.Name} ({Number(piece, 0)}){withMats} {Onto(piece, footing)}: {WhereIs(piece, footing)}.{Also([footing])}{upright}";
        }

        private string PlaceRow(int first, int end)
        {
            var pieces = Enumerable.Range(first, end - first).Select(i => _card.Pieces[i]).ToList();
            var footing = _footings[first];
            var runs = _card.Layout.Rows.First(row => row.Name == pieces[0].Source.Row).Runs;
            // As they lie: a row may start at its right or at its bottom.
            var (from, to) = (Outer(pieces[0]), Outer(pieces[^1]));
            var order = runs == Axis.Across
                ? from.Left <= to.Left ? "from left to right" : "from right to left"
                : from.Top <= to.Top ? "from top to bottom" : "from bottom to top";
            var withMats = pieces[0].Mats.Count switch { 0 => "", 1 => ", each on its mat,", _ => ", each on its mats," };
            var numbers = string.Join(", ", pieces.Select(piece => Number(piece, 0)).Distinct());
            return $"{How(pieces[0])} the {Whole(pieces.Count)} pieces of {pieces[0].Source.Row} ({numbers}){withMats} {Onto(pieces[0], footing)}, "
                + $"{order}: {RowPlaces(pieces, footing, runs)}.{Also(_footings.Skip(first).Take(end - first), pieces)}";
        }

        /// <summary>
        /// Where the pieces of a row go: across the row once for all where that is the same, along it from one and the same edge.
        /// </summary>
        private string RowPlaces(List<FittedPiece> pieces, Footing footing, Axis runs)
        {
            var (under, owner) = Edges(footing);
            if (pieces.Exists(piece => !piece.Source.Tilt.IsZero))
            {
                return string.Join("; ", pieces.Select((piece, i) => $"{Nth(i, pieces.Count)} {WhereIs(piece, footing)}"));
            }

            Box[] boxes = [.. pieces.Select(Outer)];
            string[] beside = [.. boxes.Select(box => runs == Axis.Across ? _places.Down(box, under, owner) : _places.Across(box, under, owner)).Distinct()];
            var (start, edge) = runs == Axis.Across ? (under.Left, "left") : (under.Top, "top");
            string[] along = [.. boxes.Select(box => _places.Text((runs == Axis.Across ? box.Left : box.Top) - start))];
            return beside.Length > 1 || boxes.Any(box => (runs == Axis.Across ? box.Left : box.Top) < start)
                ? string.Join("; ", pieces.Select((piece, i) => $"{Nth(i, pieces.Count)} {WhereIs(piece, footing)}"))
                : $"all {beside[0]}, their {edge} edges {WordList.Of(along)} from {owner} {edge} edge";
        }

        private static string Nth(int index, int count) => index == 0 ? "the first" : index == count - 1 ? "the last" : index == 1 ? "the next" : "then";

        private static Box Outer(FittedPiece piece) => piece.Mats.Count > 0 ? piece.Mats[^1].Box : piece.Box;

        private (Box Under, string Owner) Edges(Footing footing) =>
            (footing.MeasureFrom?.Box ?? _card.Face, footing.MeasureFrom == footing.On ? "its" : "the card’s");

        private static string How(FittedPiece piece) => piece.Source.Lift.Foam is { } foam
            ? $"With {LengthText.Write(foam, LengthText.NaturalUnit(foam))} foam under it, mount"
            : "Glue";

        private static string Onto(FittedPiece piece, Footing footing) =>
            $"{(piece.Source.Lift.Foam is null ? "flat " : "")}on {footing.On?.Name ?? "the card"}";

        private string WhereIs(FittedPiece piece, Footing footing)
        {
            var outer = Outer(piece);

            // Whatever it lies on, the middle of it can be found.
            if (footing.MeasureFrom is null && footing.On is { } on && on.Source.Tilt.IsZero && outer.Centre == on.Box.Centre && piece.Source.Tilt.IsZero)
            {
                return "in its middle";
            }

            var (under, owner) = Edges(footing);
            return piece.Source.Tilt.IsZero
                ? _places.Of(outer, under, owner)
                : $"{_places.OfCentre(piece.Box.Centre, under, owner)}, turned {Turned(piece.Source.Tilt)}";
        }

        private static string Turned(Angle tilt) => tilt.Degrees.Sign < 0 ? $"{-tilt} to the left" : $"{tilt} to the right";

        private static string Also(IEnumerable<Footing> footings, IReadOnlyList<FittedPiece>? row = null)
        {
            var text = "";
            var all = footings.ToList();
            string[] over = [.. all.SelectMany(footing => footing.AlsoOver).Where(piece => row?.Contains(piece) != true).Select(piece => piece.Source.Row ?? piece.Name).Distinct()];
            if (over.Length > 0)
            {
                text += $" {(row is null ? "It lies" : "They lie")} over part of {WordList.Of(over)}.";
            }

            if (row is not null && all.Any(footing => footing.AlsoOver.Any(row.Contains)))
            {
                text += " Each lies over the one before.";
            }

            foreach (var (piece, height) in all.SelectMany(footing => footing.Steps).Distinct())
            {
                text += $" There {piece.Name} stands {LengthText.Write(height, LengthText.NaturalUnit(height))} higher than {all[0].On?.Name ?? "the card"}: "
                    + "put as much foam, or scraps of card, under what does not rest on it.";
            }

            return text;
        }

        private List<FittedPiece> PiecesOf(TrimLine line) =>
            [.. _card.Pieces.Where(piece => LineOf(piece, 0) == line)];

        private TrimLine LineOf(FittedPiece piece, int mat) => AssemblyOrder.LineOf(list, piece, mat);

        private string Number(FittedPiece piece, int mat) => Whole(LineOf(piece, mat).Layer);

        private string Named(IReadOnlyList<FittedPiece> pieces) =>
            $"{WordList.Of([.. pieces.Select(piece => piece.Name)])} ({Number(pieces[0], 0)})";

        private string Shows(FittedMat mat) => $"{_places.Text(mat.Reveal)} of {mat.Source.Paper} shows on every side";
    }

    /// <summary>The line of a trim list that has a piece (mat 0) or one of its mats.</summary>
    internal static TrimLine LineOf(TrimList list, FittedPiece piece, int mat) =>
        list.Lines.First(line => line.Mat == mat && line.Shape != "card base" && NamesOf(line).Contains(piece.Name));

    /// <summary>The names of the pieces that a line of a trim list is about.</summary>
    private static string[] NamesOf(TrimLine line)
    {
        var names = line.Name;
        var mat = names.IndexOf(" of ", StringComparison.Ordinal);
        return (line.Mat > 0 && mat >= 0 ? names[(mat + 4)..] : names).Split(", ");
    }

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}

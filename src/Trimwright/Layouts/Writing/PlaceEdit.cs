using Trimwright.Layouts.Reading;

namespace Trimwright.Layouts.Writing;

/// <summary>Changes the <c>place</c> of a piece or a row in the text of a file from one list of placements to another.</summary>
/// <remarks>
/// The two lists go together entry by entry: a variant puts an entry in place of another and adds none. So a key that says as much as before keeps its
/// value, and what follows it.
/// </remarks>
internal sealed class PlaceEdit
{
    private readonly SourceText _text;
    private readonly Wish _reveal;
    private readonly SyntaxObject _place;
    private readonly IReadOnlyList<Placement> _now;
    private readonly IReadOnlyList<Placement> _then;

    // Whether the key `center` is written already: for both directions there is one.
    private bool _hasCentre;

    private PlaceEdit(SourceText text, Wish reveal, SyntaxObject place, IReadOnlyList<Placement> now, IReadOnlyList<Placement> then) =>
        (_text, _reveal, _place, _now, _then) = (text, reveal, place, now, then);

    /// <summary>Changes a place.</summary>
    /// <returns>Null, or why the language has no words for the new place: then nothing was changed.</returns>
    public static string? Change(
        SourceText text, Wish reveal, string name, SyntaxObject? place, IReadOnlyList<Placement> now, IReadOnlyList<Placement> then)
    {
        if (place is null || now.SequenceEqual(then))
        {
            return null;
        }

        if (then.OfType<Centred>().Select(centred => centred.On).Distinct().Count() > 1)
        {
            return $"`{name}` would be centred on one thing across and on another up and down, and a place in a layout file has one `center-on`";
        }

        new PlaceEdit(text, reveal, place, now, then).Change();
        return null;
    }

    private void Change()
    {
        var written = _place.Members.Select(member => (Member: member, Text: Written(member))).ToList();
        for (var i = 0; i < written.Count; i++)
        {
            var (member, text) = written[i];
            if (text is { Length: > 0 })
            {
                _text.Replace(member, text);
            }

            if (text is { Length: 0 })
            {
                var first = member;
                while (i + 1 < written.Count && written[i + 1].Text is { Length: 0 })
                {
                    i++;
                }

                _text.Remove(first, written[i].Member);
            }
        }
    }

    // What is to stand in place of a member: null where it stays, nothing where it goes.
    private string? Written(SyntaxMember member)
    {
        var changed = _now.Zip(_then).Where(pair => pair.First.Source == member.KeyPlace).ToList();
        switch (member.Key)
        {
            case "center-on":
                return _then.OfType<Centred>().Any() ? null : "";
            case "inset" or "inset-across" or "inset-down":
                return _then.Where(placement => placement.Source == _place.Members.First(other => other.Key == "corner").KeyPlace).All(placement => placement is FromEdge) ? null : "";
            case "beside":
                TurnNeighbours(member.Value);
                return null;
            case "center" when !_hasCentre && Axes(_now).SequenceEqual(Axes(_then)):
                _hasCentre = true;
                return null;
            case not "center" when changed.TrueForAll(pair => pair.First == pair.Second):
                return null;
            case "corner" when changed is [{ Second: FromEdge across }, { Second: FromEdge down }]:
                return Pair("corner", Words.Of(Words.Corners, (down.Edge, across.Edge)));
            default:
                return string.Join(", ", changed.Select(pair => Written(pair.Second)).Where(text => text.Length > 0));
        }
    }

    private string Written(Placement placement)
    {
        switch (placement)
        {
            case FromEdge near:
                return $"{SourceText.Quoted("from-" + Words.Of(Words.Edges, near.Edge))}: {(near.Distance.Place == _reveal.Place ? SourceText.Quoted("reveal") : _text.At(near.Distance.Place))}";
            case Hang hang:
                return Pair("hang-from", Words.Of(Words.Edges, hang.From));
            case Centred when !_hasCentre:
                _hasCentre = true;
                return Centre();
            default:
                return "";
        }
    }

    private string Centre() => Pair("center", Words.Of(Words.Centres, Axes(_then) switch
    {
        [var one] => one == Axis.Across ? Reading.Axes.Across : Reading.Axes.UpDown,
        _ => Reading.Axes.Both,
    }));

    private static List<Axis> Axes(IEnumerable<Placement> placements) => [.. placements.OfType<Centred>().Select(centred => centred.Axis).Distinct().Order()];

    private void TurnNeighbours(SyntaxValue value)
    {
        IReadOnlyList<SyntaxValue> entries = value is SyntaxList list ? list.Items : [value];
        foreach (var (was, then) in _now.Zip(_then))
        {
            if (then is Beside beside && was != then)
            {
                var entry = (SyntaxObject)entries.First(entry => entry.Place == beside.Source);
                _text.Replace(entry.Members.First(member => member.Key == "side").Value.Place, SourceText.Quoted(Words.Of(Words.Edges, beside.Side)));
            }
        }
    }

    private static string Pair(string key, string word) => $"{SourceText.Quoted(key)}: {SourceText.Quoted(word)}";
}

using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Layouts.Writing;

/// <summary>Changes pieces, rows and rules in the text of a file from those of a layout to those of its variant.</summary>
internal sealed class LayoutEdit(SourceText text, Layout layout, Layout variant, Func<string, string> fileName)
{
    private readonly Dictionary<string, (Piece Now, Piece Then)> _pieces =
        layout.Pieces.Zip(variant.Pieces).ToDictionary(pair => pair.First.Name, StringComparer.Ordinal);

    private readonly Dictionary<string, (Row Now, Row Then)> _rows =
        layout.Rows.Zip(variant.Rows).ToDictionary(pair => pair.First.Name, StringComparer.Ordinal);

    private readonly List<string> _obstacles = [];

    /// <summary>What could not be written.</summary>
    public IReadOnlyList<string> Obstacles => _obstacles;

    /// <summary>Names a file as it is seen from where the variant goes.</summary>
    public void NameFile(SyntaxMember? member)
    {
        if (member?.Value is SyntaxText said && fileName(said.Text) is var name && name != said.Text)
        {
            text.Replace(said.Place, SourceText.Quoted(name));
        }
    }

    /// <summary>Changes an entry of the list of pieces.</summary>
    public void ChangePieceOrRow(SyntaxObject item)
    {
        if (Find(item, "row") is not { Value: SyntaxText name })
        {
            ChangePiece(item, null);
            return;
        }

        var (now, then) = _rows[name.Text];
        Place(item, name.Text, now.Placements, then.Placements);
        if (!now.Pieces.SequenceEqual(then.Pieces))
        {
            TurnRound(item, now.Runs);
        }

        if (Find(item, "of") is { Value: SyntaxList list })
        {
            foreach (var member in list.Items.OfType<SyntaxObject>())
            {
                ChangePiece(member, then);
            }
        }
        else if (Find(item, "of") is { Value: SyntaxObject one })
        {
            // Copies differ in their tilt alone. A row that reads the other way round still has its first copy first in the file.
            ChangeParts(one, [.. layout.Pieces.Where(piece => piece.Row == name.Text).Select(piece => _pieces[piece.Name])], then);
        }
    }

    /// <summary>Changes the rules.</summary>
    public void ChangeRules()
    {
        foreach (var (now, then) in layout.Rules.Zip(variant.Rules).Where(pair => pair.First.Text != pair.Second.Text))
        {
            if (then.Text.Length > RuleReader.LongestRule)
            {
                _obstacles.Add($"the rule `{now.Text}` would be longer than the {RuleReader.LongestRule} characters that a rule may have");
                continue;
            }

            text.Replace(now.Source, SourceText.Quoted(then.Text));
        }
    }

    private void ChangePiece(SyntaxObject item, Row? row)
    {
        var pair = _pieces[((SyntaxText)Find(item, "name")!.Value).Text];
        if (row is null)
        {
            Place(item, pair.Now.Name, pair.Now.Placements, pair.Then.Placements);
        }

        ChangeParts(item, [pair], row);
    }

    private void ChangeParts(SyntaxObject item, IReadOnlyList<(Piece Now, Piece Then)> pieces, Row? row)
    {
        var (now, then) = pieces[0];
        var kind = Find(item, "kind")!;
        if (now.Flipped != then.Flipped)
        {
            Say(item, kind, "flipped", then.Flipped ? "true" : "false");
        }

        // Where nothing is said, a piece hangs from the edge that its place, or that of its row, hangs it from, or from the top.
        var hung = (row?.Placements ?? then.Placements).OfType<Hang>().FirstOrDefault()?.From ?? Edge.Top;
        var said = Find(item, "hangs-from");
        if (then.Kind is PieceKind.Banner or PieceKind.Tag && (said is null ? hung : now.HangsFrom) != then.HangsFrom)
        {
            Say(item, kind, "hangs-from", SourceText.Quoted(Words.Of(Words.Edges, then.HangsFrom)));
        }

        if (Find(item, "tilt")?.Value is { } tilt)
        {
            IReadOnlyList<SyntaxValue> numbers = tilt is SyntaxList list ? list.Items : [tilt];
            foreach (var (number, (was, becomes)) in numbers.Zip(pieces))
            {
                Turn((SyntaxNumber)number, was.Tilt, becomes.Tilt);
            }
        }

        NamePicture(item);
    }

    // A mirror turns a tilt the other way; nothing else changes it.
    private void Turn(SyntaxNumber number, Angle was, Angle becomes)
    {
        if (was != becomes)
        {
            text.Replace(number.Place, number.Raw.StartsWith('-') ? number.Raw[1..] : "-" + number.Raw);
        }
    }

    private void NamePicture(SyntaxObject item)
    {
        var picture = Find(item, "picture");
        NameFile(picture?.Value is SyntaxObject group ? Find(group, "file") : picture);
    }

    private void TurnRound(SyntaxObject item, Axis runs)
    {
        var words = runs == Axis.Across ? Words.StartsAcross : Words.StartsUpDown;
        var isTurned = Find(item, "starts-at") is { Value: SyntaxText said } && said.Text == Words.Of(words, true);
        Say(item, Find(item, "runs")!, "starts-at", SourceText.Quoted(Words.Of(words, !isTurned)));
    }

    private void Place(SyntaxObject item, string name, IReadOnlyList<Placement> now, IReadOnlyList<Placement> then)
    {
        if (PlaceEdit.Change(text, layout.Reveal, name, Find(item, "place")?.Value as SyntaxObject, now, then) is { } obstacle)
        {
            _obstacles.Add(obstacle);
        }
    }

    private void Say(SyntaxObject item, SyntaxMember behind, string key, string value)
    {
        if (Find(item, key) is { } member)
        {
            text.Replace(member.Value.Place, value);
        }
        else
        {
            text.AddAfter(behind, key, value);
        }
    }

    private static SyntaxMember? Find(SyntaxObject item, string key) => item.Members.FirstOrDefault(member => member.Key == key);
}

using Trimwright.Fitting;
using Trimwright.Geometry;

namespace Trimwright.Drawing.Measured;

/// <summary>The pieces, rows and layers of a card by name, so that nothing is searched for twice.</summary>
internal sealed class CardIndex
{
    private readonly Dictionary<string, FittedPiece> _pieces = [];
    private readonly Dictionary<string, FittedRow> _rows = [];
    private readonly Dictionary<string, (int First, int Piece)> _layers = [];
    private readonly Dictionary<string, int> _depths = [];

    /// <summary>Looks through a card once.</summary>
    public CardIndex(FittedCard card)
    {
        Card = card;
        Layers = FaceLayer.Of(card);
        for (var i = 0; i < Layers.Count; i++)
        {
            var name = Layers[i].Piece.Name;
            _layers[name] = (_layers.TryGetValue(name, out var known) ? known.First : i, i);
        }

        foreach (var piece in card.Pieces)
        {
            _pieces[piece.Name] = piece;
        }

        foreach (var row in card.Rows)
        {
            _rows[row.Source.Name] = row;
        }
    }

    /// <summary>The card.</summary>
    public FittedCard Card { get; }

    /// <summary>All layers, from the bottom up.</summary>
    public IReadOnlyList<FaceLayer> Layers { get; }

    /// <summary>The piece of that name.</summary>
    public FittedPiece Piece(string name) => _pieces[name];

    /// <summary>The row of that name, or null.</summary>
    public FittedRow? Row(string name) => _rows.GetValueOrDefault(name);

    /// <summary>The indices of the layers of a piece: of its lowest mat, and of the piece itself.</summary>
    public (int First, int Piece) LayersOf(string piece) => _layers[piece];

    /// <summary>How many pieces lie between a piece, or a row, and the card; 0 for what lies on the card itself.</summary>
    public int DepthOn(string? parent)
    {
        if (parent is null)
        {
            return 0;
        }

        if (!_depths.TryGetValue(parent, out var depth))
        {
            _depths[parent] = depth = 1 + DepthOn(ParentOf(parent));
        }

        return depth;
    }

    /// <summary>What a piece or a row lies on, or null for the card.</summary>
    public string? ParentOf(string name) => Row(name) is { } row ? row.Source.On : Piece(name).Source.On;

    /// <summary>The outline that is placed on, and its name; above a tilted piece, which has no upright edges, the one below it.</summary>
    public (Outline Outline, string? Name) Placed(string? parent)
    {
        while (parent is not null)
        {
            if (Row(parent) is { } row)
            {
                return (Outline.FromBox(row.Box), parent);
            }

            var piece = Piece(parent);
            if (piece.Source.Tilt.IsZero)
            {
                return (piece.Outline, parent);
            }

            parent = piece.Source.On;
        }

        return (Outline.FromBox(Card.Face), null);
    }
}

using Trimwright.Fitting;
using Trimwright.Geometry;

namespace Trimwright.Drawing.Measured;

/// <summary>A sheet that says all of some pieces: placed when it is made, drawn when it is known which sheet of how many it is.</summary>
internal sealed class DetailSheet
{
    private const double Border = 8;
    private const double BlockGap = 8;
    private const int MostLanes = 6;

    // Columns of callouts may be higher than the face by this much.
    private const double MostBeyondFace = 60;

    private readonly FittedCard _card;
    private readonly Sight _sight;
    private readonly DimensionText _text;
    private readonly bool _isWhole;
    private readonly HashSet<string> _meant;
    private readonly Sayings _sayings;
    private readonly IReadOnlyList<PlacedDimension> _dimensions;
    private readonly List<TiltedDimension> _tilted = [];
    private readonly IReadOnlyList<PlacedCallout> _callouts;
    private readonly Area[] _words;
    private readonly Area _used;

    /// <summary>Places what is said.</summary>
    /// <param name="index">The card.</param>
    /// <param name="units">What the sheet is about.</param>
    /// <param name="text">How lengths are written.</param>
    /// <param name="isWhole">Whether it is the only sheet, and so says the size of the card as well.</param>
    public DetailSheet(CardIndex index, IReadOnlyList<SheetUnit> units, DimensionText text, bool isWhole)
    {
        (_card, _text, _isWhole, Units) = (index.Card, text, isWhole, units);
        _meant = [.. units.SelectMany(unit => unit.Pieces).Select(piece => piece.Name)];
        var layers = isWhole ? index.Layers : LayersFor(index, units);
        var card = Plane.Roughly(_card.Face);
        _sight = new(layers, card);
        var face = _sight.Shapes.Aggregate(card, (area, shape) => area.Around(shape.Area));
        _sayings = new SayingsFinder(index, layers, text).Find(units, isWhole);
        var lanes = new LanePlacer(face, text);
        _dimensions = lanes.Place(_sayings.Dimensions);
        (Spot, Spot)[] extensions = [.. _dimensions.SelectMany(placed => placed.ExtensionLines())];
        var callouts = PlaceTilted(extensions);
        var taken = _dimensions.Aggregate(face, (area, placed) => area.Around(placed.LineArea));
        Area[] before = [.. WordsOf()];
        var finder = new LeaderFinder(_sight, face, before, extensions, [.. _tilted.Select(placed => placed.Line), .. _sayings.Centres.SelectMany(DimensionInk.MarkLines)]);
        _callouts = new CalloutPlacer(finder, face, taken).Place(callouts);
        if (_callouts.Any(placed => LeaderFinder.IsBroken(placed, before)))
        {
            _dimensions = lanes.MakeWayFor(_callouts);
            taken = _dimensions.Aggregate(taken, (area, placed) => area.Around(placed.LineArea));
        }

        _words = [.. WordsOf()];
        _used = _callouts.Aggregate(taken, (area, placed) => area.Around(placed.TextArea));
        var broken = _callouts.Count(placed => LeaderFinder.IsBroken(placed, _words));
        IsTooDense = lanes.Lanes > MostLanes || lanes.Breaks > 0 || broken > 0
            || _used.Bottom - _used.Top > Math.Max(taken.Bottom - taken.Top, face.Bottom - face.Top + MostBeyondFace);
    }

    /// <summary>What the sheet is about.</summary>
    public IReadOnlyList<SheetUnit> Units { get; }

    /// <summary>Whether it says more than can be read easily.</summary>
    public bool IsTooDense { get; }

    /// <summary>Draws it.</summary>
    public DrawingList Draw(SheetPlace place)
    {
        var (block, blockArea) = TitleBlock.Draw(_card, _text, place, _used, _used.Bottom + BlockGap);
        var ink = new DimensionInk(_dimensions, _words);
        return new()
        {
            Title = _card.Layout.Title,
            Description = $"{CardWords.Describe(_card)}, with its measures" + (place.Of == 1 ? "" : $": {place.Shows}"),
            Unit = _card.Unit,
            Sheet = Plane.Exactly(_used.Around(blockArea).Grown(Border)).OutToStep(_card.Unit),
            Patterns = [],
            Items =
            [
                .. FaceInk.Draw(_card, _sight, layer => _meant.Contains(layer.Piece.Name), _isWhole, withHidden: true),
                .. _sayings.Centres.SelectMany(DimensionInk.Mark),
                .. ink.Dimensions(),
                .. _tilted.Select(DimensionInk.Draw),
                .. _callouts.Select(ink.Draw),
                new DrawnGroup(block) { Id = "title-block", Class = "title-block" },
            ],
        };
    }

    private IEnumerable<Area> WordsOf() =>
        _dimensions.Select(placed => placed.TextArea).Concat(_tilted.Select(placed => placed.Area));

    /// <summary>The layers of the units, and below them what they are placed on.</summary>
    private static List<FaceLayer> LayersFor(CardIndex index, IReadOnlyList<SheetUnit> units)
    {
        SortedSet<int> wanted = [];
        foreach (var piece in units.SelectMany(unit => unit.Pieces))
        {
            var (first, last) = index.LayersOf(piece.Name);
            wanted.UnionWith(Enumerable.Range(first, last - first + 1));
        }

        foreach (var parent in units.Select(unit => unit.On).Distinct())
        {
            for (var name = parent; name is not null; name = index.ParentOf(name))
            {
                foreach (var piece in index.Row(name)?.Source.Pieces ?? [name])
                {
                    wanted.Add(index.LayersOf(piece).Piece);
                }
            }
        }

        return [.. wanted.Select(layer => index.Layers[layer])];
    }

    /// <summary>Says sizes on tilted pieces where there is room; gives the callouts, without the sizes that are said.</summary>
    private Callout[] PlaceTilted(IReadOnlyList<(Spot, Spot)> extensions)
    {
        Callout[] callouts = [.. _sayings.Callouts];
        var placer = new TiltedPlacer(_sight, _text, extensions, _sayings.Centres);
        foreach (var size in _sayings.Tilted)
        {
            if (placer.Place(size) is { } placed)
            {
                _tilted.AddRange(placed);
                callouts[size.Callout] = callouts[size.Callout] with { Lines = size.WithoutSize };
            }
        }

        return callouts;
    }
}

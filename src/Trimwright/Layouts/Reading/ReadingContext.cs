using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>How a piece, a row, or the like uses a name that is declared elsewhere.</summary>
internal enum NameUse
{
    /// <summary>A paper.</summary>
    Paper,

    /// <summary>What a piece or row is placed on.</summary>
    Parent,

    /// <summary>What a piece or row is centred on or lies beside.</summary>
    Neighbour,

    /// <summary>A measure in a rule.</summary>
    Measure,
}

/// <summary>A name used.</summary>
/// <param name="Name">The name.</param>
/// <param name="Place">Where.</param>
/// <param name="Use">How.</param>
/// <param name="By">The piece or row that uses it, or null where none does.</param>
internal sealed record UsedName(string Name, SourcePlace Place, NameUse Use, string? By);

/// <summary>What all parts of a reading share: the problems found, the unit of plain numbers, the names declared and used.</summary>
/// <param name="file">The file as the user named it.</param>
/// <param name="open">Opens the pictures that a layout names; null where none are opened.</param>
internal sealed class ReadingContext(string file, Func<string, PictureFile>? open = null)
{
    /// <summary>The pictures opened so far.</summary>
    public PictureValues Pictures { get; } = new(open);

    /// <summary>The file as the user named it.</summary>
    public string File { get; } = file;

    /// <summary>The unit of plain numbers. Set before the first length is read.</summary>
    public LengthUnit Unit { get; set; }

    /// <summary>The problems found.</summary>
    public List<Diagnostic> Diagnostics { get; } = [];

    /// <summary>The pieces and rows declared, in file order; a name declared twice stands here once.</summary>
    public Dictionary<string, SourcePlace> Names { get; } = new(StringComparer.Ordinal);

    /// <summary>The papers declared, in file order.</summary>
    public Dictionary<string, SourcePlace> Papers { get; } = new(StringComparer.Ordinal);

    /// <summary>Whether the papers could be read at all. If not, that was reported, and no use of a paper is.</summary>
    public bool HasPapers { get; set; }

    /// <summary>Whether the pieces could be read at all. If not, that was reported, and no use of a name is.</summary>
    public bool HasPieces { get; set; }

    /// <summary>The names used, in the order read.</summary>
    public List<UsedName> Used { get; } = [];

    /// <summary>Notes a problem.</summary>
    public void Add(Diagnostic diagnostic) => Diagnostics.Add(diagnostic);

    /// <summary>Whether there are more pieces than a layout may have, so that not all were read.</summary>
    public bool HasTooManyPieces { get; private set; }

    /// <summary>Notes that there are too many pieces.</summary>
    public void AddTooManyPieces(SourcePlace place)
    {
        HasTooManyPieces = true;
        Add(LayoutMessages.TooManyPieces(place));
    }

    /// <summary>Declares a piece or a row, unless the name is taken.</summary>
    public void Declare(string name, SourcePlace place)
    {
        if (!Names.TryAdd(name, place))
        {
            Add(LayoutMessages.NameTwice(name, place, Names[name]));
        }
    }
}

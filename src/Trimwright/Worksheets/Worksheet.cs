using System.Globalization;
using Trimwright.Drawing;
using Trimwright.Drawing.Measured;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>All that a maker needs at the table for one card or one batch, before it is set on pages: <see cref="WorksheetPdf"/> and <see cref="WorksheetHtml"/> write it.</summary>
public sealed record Worksheet
{
    /// <summary>The title.</summary>
    public required string Title { get; init; }

    /// <summary>The card, or the batch, in a sentence.</summary>
    public required string Summary { get; init; }

    /// <summary>The paper that it is printed on.</summary>
    public required PaperSize Paper { get; init; }

    /// <summary>What to know about the size of its drawings when it is read on a screen.</summary>
    public required string ScreenNote { get; init; }

    /// <summary>The sections in order.</summary>
    public required IReadOnlyList<WorksheetSection> Sections { get; init; }
}

/// <summary>A section of a worksheet.</summary>
/// <param name="Heading">Its heading; empty where it follows the title.</param>
/// <param name="Parts">What is in it.</param>
public sealed record WorksheetSection(string Heading, IReadOnlyList<WorksheetPart> Parts)
{
    /// <summary>Whether it stays on one page when printed, where it can.</summary>
    public bool StaysTogether { get; init; }
}

/// <summary>Something in a section.</summary>
public abstract record WorksheetPart;

/// <summary>A paragraph.</summary>
/// <param name="Text">Its text.</param>
public sealed record WorksheetText(string Text) : WorksheetPart;

/// <summary>A list.</summary>
/// <param name="Items">Its items, each a few sentences.</param>
/// <param name="IsNumbered">Whether their order matters.</param>
/// <param name="IsAside">Whether it is set small, in two columns, so that it finds room on a page.</param>
public sealed record WorksheetItems(IReadOnlyList<string> Items, bool IsNumbered, bool IsAside = false) : WorksheetPart;

/// <summary>What stands in a column of a table.</summary>
public enum ColumnKind
{
    /// <summary>A number, set to the right.</summary>
    Number,

    /// <summary>What a row is about: its heading. It takes the room that is left.</summary>
    About,

    /// <summary>A word or two that a row is about, never broken.</summary>
    Mark,

    /// <summary>What holds for this row, and stands out where it is new, never broken.</summary>
    Lead,

    /// <summary>A size, never broken.</summary>
    Size,

    /// <summary>Words, broken where they have to be.</summary>
    Words,

    /// <summary>Boxes to tick.</summary>
    Ticks,
}

/// <summary>A column of a table.</summary>
/// <param name="Heading">Its heading.</param>
/// <param name="Kind">What stands in it.</param>
public sealed record WorksheetColumn(string Heading, ColumnKind Kind);

/// <summary>A table. One of its columns says what a row is about.</summary>
/// <param name="Name">What kind of table it is, for the style of the page: a word of lower-case letters.</param>
/// <param name="Caption">What it shows.</param>
/// <param name="Columns">Its columns.</param>
/// <param name="Rows">Its rows.</param>
public sealed record WorksheetTable(string Name, string Caption, IReadOnlyList<WorksheetColumn> Columns, IReadOnlyList<WorksheetRow> Rows) : WorksheetPart
{
    /// <summary>The rows by which the columns are made wide enough, where a long table is shared out; its own if null.</summary>
    public IReadOnlyList<WorksheetRow>? SizedBy { get; init; }

    /// <summary>Whether it may go on on another page even where it would fit one by itself; its headings are then said again.</summary>
    public bool MayBreak { get; init; }

    /// <summary>Whether its rows stand close together.</summary>
    public bool IsTight { get; init; }

    /// <summary>The place of the column that says what a row is about.</summary>
    internal int About => Enumerable.Range(0, Columns.Count).First(i => Columns[i].Kind is ColumnKind.About or ColumnKind.Mark);
}

/// <summary>A row of a table.</summary>
/// <param name="Cells">Its cells, as many as there are columns; empty where boxes are.</param>
/// <param name="Notes">What is said below the cells, as short sentences without full stops.</param>
public sealed record WorksheetRow(IReadOnlyList<string> Cells, IReadOnlyList<string> Notes)
{
    /// <summary>Whether something new begins with it that holds for the rows that follow as well: a line is drawn above it, and its lead stands out.</summary>
    public bool IsNew { get; init; }

    /// <summary>The most boxes that a row has: for more, their number is written, and a line to tally on.</summary>
    public const int MostBoxes = 12;

    /// <summary>How many times something is to be ticked, and what a tick means.</summary>
    public (long Count, string Meaning) Ticks { get; init; }

    /// <summary>How many boxes it has.</summary>
    internal int Boxes => Ticks.Count <= MostBoxes ? (int)Ticks.Count : 0;

    /// <summary>What is written above a line to tally on, where there would be too many boxes; empty where there are boxes.</summary>
    internal string Tally => Ticks.Count <= MostBoxes ? "" : string.Create(CultureInfo.InvariantCulture, $"{Ticks.Count} times");
}

/// <summary>A drawing.</summary>
/// <param name="Name">What its ids begin with where several drawings share a page; letters, figures and hyphens, unique on the worksheet.</param>
/// <param name="Drawing">The drawing.</param>
/// <param name="Caption">What is said below it.</param>
/// <param name="IsMeasuredOn">
/// Whether makers may lay a ruler or a piece of paper on it, so that it matters whether it is true to size.
/// </param>
public sealed record WorksheetFigure(string Name, DrawingList Drawing, string Caption, bool IsMeasuredOn) : WorksheetPart
{
    /// <summary>The largest scale that it is drawn at; 1 for its true size.</summary>
    public Rational MostScale { get; init; } = Rational.One;
}

/// <summary>
/// Drawings side by side that are smaller than what they show, and say so. A page that is printed has them at their places, a window lets them flow.
/// </summary>
/// <param name="Figures">The drawings. Their own captions are not shown: each says on itself what it is.</param>
/// <param name="Caption">What is said below them.</param>
public sealed record WorksheetFigures(IReadOnlyList<WorksheetFigure> Figures, string Caption) : WorksheetPart
{
    private const double Air = 0.5;

    /// <summary>A drawing to stand beside others: only what is drawn, without the border it has as a sheet of its own.</summary>
    internal static WorksheetFigure Figure(string name, DrawingList drawing) =>
        new(name, drawing with { Sheet = Plane.Exactly(InkBounds.Of(drawing.Items).Grown(Air)) }, "", IsMeasuredOn: false);
}

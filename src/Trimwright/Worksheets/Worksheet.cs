using Trimwright.Drawing;

namespace Trimwright.Worksheets;

/// <summary>All that a maker needs at the table for one card, before it is set on pages: <see cref="WorksheetPdf"/> and <see cref="WorksheetHtml"/> write it.</summary>
public sealed record Worksheet
{
    /// <summary>The title.</summary>
    public required string Title { get; init; }

    /// <summary>The card in a sentence.</summary>
    public required string Summary { get; init; }

    /// <summary>The paper that it is printed on.</summary>
    public required PaperSize Paper { get; init; }

    /// <summary>The sections in order.</summary>
    public required IReadOnlyList<WorksheetSection> Sections { get; init; }
}

/// <summary>A section of a worksheet.</summary>
/// <param name="Heading">Its heading; empty where it follows the title.</param>
/// <param name="Parts">What is in it.</param>
public sealed record WorksheetSection(string Heading, IReadOnlyList<WorksheetPart> Parts);

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

/// <summary>A table. Its second column says what a row is about.</summary>
/// <param name="Caption">What it shows.</param>
/// <param name="Headings">The headings of its columns.</param>
/// <param name="Rows">Its rows.</param>
public sealed record WorksheetTable(string Caption, IReadOnlyList<string> Headings, IReadOnlyList<WorksheetRow> Rows) : WorksheetPart;

/// <summary>A row of a table.</summary>
/// <param name="Cells">Its cells, as many as there are headings.</param>
/// <param name="Notes">What is said below the cells, as short sentences without full stops.</param>
public sealed record WorksheetRow(IReadOnlyList<string> Cells, IReadOnlyList<string> Notes);

/// <summary>A drawing.</summary>
/// <param name="Name">What its ids begin with where several drawings share a page; letters, figures and hyphens, unique on the worksheet.</param>
/// <param name="Drawing">The drawing.</param>
/// <param name="Caption">What is said below it.</param>
/// <param name="IsMeasuredOn">
/// Whether makers may lay a ruler or a piece of paper on it, so that it matters whether it is true to size.
/// </param>
public sealed record WorksheetFigure(string Name, DrawingList Drawing, string Caption, bool IsMeasuredOn) : WorksheetPart;

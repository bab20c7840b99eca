using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches.Reading;

/// <summary>
/// Reads the stock that a batch takes from other files, such as the leftovers of the last batch, and adds it to its own. A paper of the same name
/// is the same paper. Sheets of the same name are told apart by a number: names are only labels.
/// </summary>
internal sealed class StockFiles(
    List<Paper> papers, List<StockSheet> stock, ReadingContext context, Func<string, (string Name, byte[] Content)?> open)
{
    /// <summary>Reads the files that <c>stock-from</c> names; what is wrong in them is reported with the place in them.</summary>
    public void Read(ObjectView batch)
    {
        if (batch.As<SyntaxList>(batch.Find("stock-from"), "a list of files like `[ \"left-over.json\" ]`") is not { } list)
        {
            return;
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxText text)
            {
                context.Add(LayoutMessages.WrongKind("a stock file", "its name in double quotes", item));
            }
            else if (string.IsNullOrWhiteSpace(text.Text) || open(text.Text) is not var (name, content))
            {
                context.Add(BatchMessages.NoSuchStockFile(text.Text, text.Place));
            }
            else
            {
                ReadFile(name, content, text.Place);
            }
        }
    }

    private void ReadFile(string name, byte[] content, SourcePlace namedAt)
    {
        var inner = new ReadingContext(name);
        if (SyntaxReader.Read(name, content, inner.Diagnostics) is { } value)
        {
            if (value is SyntaxObject root)
            {
                Add(new(root, "a stock file", BatchKeys.StockFile, inner), inner, namedAt);
            }
            else
            {
                inner.Add(LayoutMessages.WrongKind("a stock file", "a group in braces", value));
            }
        }

        inner.Diagnostics.ForEach(context.Add);
    }

    private void Add(ObjectView view, ReadingContext inner, SourcePlace namedAt)
    {
        view.Text("$schema");
        view.Text(view.Need("title"));
        inner.Unit = view.Word(view.Need("units"), Words.Units) ?? LengthUnit.Inch;
        var more = HeadReader.ReadPapers(view, inner);
        var sheets = StockReader.Read(view.Need("stock"), inner);
        Names.Check(inner, new Dictionary<string, string?>(StringComparer.Ordinal));
        foreach (var paper in more)
        {
            if (papers.Find(known => known.Name == paper.Name) is not { } known)
            {
                papers.Add(paper);
                context.Papers.TryAdd(paper.Name, paper.Place);
            }
            else if (known.OneWay != paper.OneWay)
            {
                inner.Add(BatchMessages.OtherPaper(known, paper));
            }

            // Declared in a file of its own, a paper need not be named in the batch as well.
            context.Used.Add(new(paper.Name, paper.Place, NameUse.Paper, null));
        }

        foreach (var sheet in sheets)
        {
            if (stock.Count == StockReader.MostKinds)
            {
                context.Add(BatchMessages.TooManyKinds(StockReader.MostKinds, namedAt));
                return;
            }

            stock.Add(sheet with { Name = StockNames.Free(sheet.Name, name => stock.Exists(other => other.Name == name)) });
        }
    }
}

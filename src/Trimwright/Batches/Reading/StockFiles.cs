using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches.Reading;

/// <summary>
/// Reads the stock that a batch takes from other files, such as the leftovers of the last batch, and adds it to its own. A paper of the same name
/// is the same paper: what one file leaves open of it another may say, and in how it looks the first that names it is followed. Sheets of the same
/// name are told apart by a number: names are only labels.
/// </summary>
internal sealed class StockFiles(
    List<Paper> papers, List<StockSheet> stock, ReadingContext context, Func<string, (string Name, byte[] Content)?> open)
{
    // Where some papers could not be read, that was reported, and no use of a paper is.
    private bool _knowsAll = context.HasPapers;

    /// <summary>Reads the files that <c>stock-from</c> names; what is wrong in them is reported with the place in them.</summary>
    public void Read(ObjectView batch)
    {
        if (batch.Find("stock-from") is { } member)
        {
            _knowsAll |= !batch.Has("papers");
            ReadFiles(batch.As<SyntaxList>(member, "a list of files like `[ \"left-over.json\" ]`"));
            context.HasPapers = _knowsAll;
        }
    }

    private void ReadFiles(SyntaxList? list)
    {
        if (list is null)
        {
            _knowsAll = false;
            return;
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxText text)
            {
                context.Add(LayoutMessages.WrongKind("a stock file", "its name in double quotes", item));
                _knowsAll = false;
            }
            else if (string.IsNullOrWhiteSpace(text.Text) || open(text.Text) is not var (name, content))
            {
                context.Add(BatchMessages.NoSuchStockFile(text.Text, text.Place));
                _knowsAll = false;
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

        _knowsAll &= inner.HasPapers;
        inner.Diagnostics.ForEach(context.Add);
    }

    private void Add(ObjectView view, ReadingContext inner, SourcePlace namedAt)
    {
        view.Text("$schema");
        view.Text(view.Need("title"));
        inner.Unit = view.Word(view.Need("units"), Words.Units) ?? LengthUnit.Inch;
        var more = HeadReader.ReadPapers(view, view.Need("papers"), inner);
        var sheets = StockReader.Read(view.Need("stock"), inner);
        Names.Check(inner, new Dictionary<string, string?>(StringComparer.Ordinal));
        foreach (var paper in more)
        {
            var at = papers.FindIndex(known => known.Name == paper.Name);
            if (at < 0)
            {
                papers.Add(paper);
                context.Papers.TryAdd(paper.Name, paper.Place);
            }
            else
            {
                papers[at] = Same(papers[at], paper, inner);
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

    /// <summary>One paper of what two files say of it; what they say against each other is reported.</summary>
    private static Paper Same(Paper known, Paper other, ReadingContext context)
    {
        if (known.OneWay != other.OneWay)
        {
            context.Add(BatchMessages.OtherTop(known, other));
        }

        if (known.Grammage is { } grammage && other.Grammage is { } weight && grammage != weight)
        {
            context.Add(BatchMessages.OtherPaper(known, other, "grammage", Grams(weight), Grams(grammage)));
        }

        if (known.Caliper is { } caliper && other.Caliper is { } thickness && caliper != thickness)
        {
            context.Add(BatchMessages.OtherPaper(known, other, "caliper", LengthText.Write(thickness, context.Unit), LengthText.Write(caliper, context.Unit)));
        }

        return known with { Grammage = known.Grammage ?? other.Grammage, Caliper = known.Caliper ?? other.Caliper };
    }

    private static string Grams(Rational number) => $"{LengthText.WriteDecimal(number, LengthValues.LongestNumber)} g/m²";
}

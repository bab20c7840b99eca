using System.CommandLine;
using System.Text.Json;
using Trimwright.Balance;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary>One run of a verb over a layout: what was read, what is to be said, and in which form.</summary>
internal sealed class Session
{
    private readonly Inputs _inputs;
    private readonly Screen _screen;
    private readonly List<Diagnostic> _diagnostics;
    private FacePictures? _pictures;

    private Session(Inputs inputs, Screen screen, bool asJson)
    {
        _inputs = inputs;
        _screen = screen;
        AsJson = asJson;
        _diagnostics = [.. inputs.Diagnostics];
    }

    public bool AsJson { get; }

    public bool IsReady => _inputs.Layout is not null && _inputs.Drawer is not null;

    public Layout Layout => _inputs.Layout!;

    /// <summary>What the layout was read from.</summary>
    public byte[] LayoutBytes => _inputs.LayoutBytes;

    public Drawer Drawer => _inputs.Drawer!;

    /// <summary>The pictures on the pieces, for weighing: the one place where those of a layout are handed over.</summary>
    public FacePictures Pictures => _pictures ??= FacePictures.Of(Layout);

    public static Session Open(ParseResult parsed, CommonOptions options, Screen screen) => new(
        Inputs.Read(parsed.GetValue(options.Layout)!, parsed.GetValue(options.DrawerFile)), screen, parsed.GetValue(options.Json));

    public void Report(IEnumerable<Diagnostic> diagnostics) => _diagnostics.AddRange(diagnostics);

    /// <summary>Shows what is wrong, and gives the exit code for it.</summary>
    public int Refuse()
    {
        if (AsJson)
        {
            WriteJson(_ => { });
        }
        else
        {
            Complain();
        }

        return Program.BadLayout;
    }

    /// <summary>Shows errors and warnings for people.</summary>
    public void Complain() => _screen.Complain(DiagnosticList.InFileOrder(_diagnostics), _inputs.Sources);

    /// <summary>Shows the trim list of a card under a heading, and what is to be said of the fit.</summary>
    /// <param name="of">What the list is of.</param>
    /// <param name="card">The card.</param>
    public void WriteTrimList(string of, FittedCard card)
    {
        var list = TrimList.FromCard(card);
        _screen.Line($"{of}: {TrimSheet.Headline(list)}");
        _screen.Line();
        var table = TrimTable.FromList(list);
        _screen.Table(table.Headings, table.Rows, table.ToPlainText());
        WriteReport(card);
    }

    public void WriteReport(FittedCard card)
    {
        foreach (var (heading, lines) in FitReport.Of(card))
        {
            _screen.Lines(heading, lines);
        }
    }

    /// <summary>One line on the balance of a card as drawn, unless that is not wanted or the face has no weight.</summary>
    public void WriteBalance(FittedCard card, bool isWanted)
    {
        if (isWanted && FaceWeight.Of(card, Pictures) is { } weight)
        {
            _screen.Lines("balance", [$"{BalanceReport.Brief(weight)}; `trimwright balance` shows variants and what pulls where"]);
        }
    }

    /// <summary>Prints one JSON object: what <paramref name="write"/> adds, and the diagnostics.</summary>
    public void WriteJson(Action<Utf8JsonWriter> write) => _screen.WriteJson(json =>
    {
        write(json);
        CardJson.Write(json, "diagnostics", DiagnosticList.InFileOrder(_diagnostics));
    });
}

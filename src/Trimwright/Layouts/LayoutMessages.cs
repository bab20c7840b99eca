using System.Globalization;
using Trimwright.Diagnostics;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>
/// The texts of all that can be wrong with a layout or drawer file, one method per case. Each code has its section in docs/diagnostics.md.
/// </summary>
internal static class LayoutMessages
{
    // E01xx: the file cannot be read.
    public static Diagnostic Empty(string file) => Error(
        "E0101", SourcePlace.WholeFile(file), "the file is empty", "start from one of the layouts that come with the documentation");

    public static Diagnostic TooLarge(string file) => Error(
        "E0102", SourcePlace.WholeFile(file), $"the file is larger than {LayoutReader.MaxBytes / 1024 / 1024} MiB",
        "check that it is the file you meant; a layout takes a few KiB");

    public static Diagnostic NotText(string file) => Error(
        "E0103", SourcePlace.WholeFile(file), "the file is not a text in UTF-8",
        "check that it is the file you meant, and save it as UTF-8");

    public static Diagnostic Syntax(SourcePlace place, string problem, string remedy) => Error("E0104", place, problem, remedy);

    public static Diagnostic HalfCharacter(SourcePlace place) => Error(
        "E0104", place, "an escape stands for half of a character", "write the character itself");

    public static Diagnostic TooDeep(SourcePlace place) => Error(
        "E0105", place, $"braces and brackets are nested more than {SyntaxReader.DeepestNesting} deep", "a layout needs no more than six");

    public static Diagnostic DuplicateKey(string key, SourcePlace place, SourcePlace earlier) => Error(
        "E0106", place, $"`{key}` stands here twice", "keep one of the two") with
    {
        Related = [new(earlier, "the first stands here")],
    };

    public static Diagnostic UnknownKey(string key, string what, SourcePlace place, string? meant, IReadOnlyList<string> keys) => Error(
        "E0107", place, $"{what} has no key `{key}`", meant is null ? $"the keys are {WordList.Quoted(keys)}" : $"did you mean `{meant}`?");

    public static Diagnostic KeyOfAnotherGroup(string key, string what, SourcePlace place, string remedy) => Error(
        "E0107", place, $"{what} has no key `{key}`", remedy);

    public static Diagnostic UnknownKeyLikeAnother(string key, string what, string other, SourcePlace place, SourcePlace otherPlace) => Error(
        "E0107", place, $"{what} has no key `{key}`, and `{other}` is there already", "take it out") with
    {
        Related = [new(otherPlace, "there it is")],
    };

    public static Diagnostic MissingKey(string key, string what, SourcePlace place) => Error(
        "E0108", place, $"{what} needs `{key}`", MissingRemedy(key));

    public static Diagnostic WrongKind(string what, string expected, SyntaxValue value) => Error(
        "E0109", value.Place, $"{what} is {value.Kind}", $"write {expected}");

    public static Diagnostic UnknownWord(string key, string word, SourcePlace place, IReadOnlyList<string> words) => Error(
        "E0110", place, $"`{key}` cannot be `{word}`", DidYouMean(word, words) ?? $"use {WordList.Quoted(words, "or")}");

    public static Diagnostic BadLength(LengthProblem problem, SourcePlace place) => Error("E0111", place, problem.Problem, problem.Remedy);

    public static Diagnostic TooManyPieces(SourcePlace place) => Error(
        "E0112", place, $"the layout has more than {LayoutReader.MostPieces} pieces, counting the copies in rows",
        "split it into several layouts");

    public static Diagnostic EmptyList(string key, SourcePlace place) => Error(
        "E0113", place, $"`{key}` is empty", "put at least one piece into it");

    public static Diagnostic EmptyText(string key, SourcePlace place) => Error(
        "E0114", place, $"`{key}` says nothing", key == "picture" ? "write the name of a file, like `\"robin.png\"`" : "write the lettering, or make the piece a `panel`");

    // E02xx: the file can be read, but what it says makes no layout.
    public static Diagnostic BadSize(string key, Wish wish, bool positive) => Error(
        "E0201", wish.Place, $"`{key}` is {LengthText.Write(wish.Value, wish.Unit)}",
        positive ? "make it more than 0" : "make it 0 or more");

    public static Diagnostic OutOfRange(string key, string range, SourcePlace place) => Error(
        "E0202", place, $"`{key}` must be {range}", "change the number");

    public static Diagnostic StrengthWithoutMeaning(string key, Wish wish) => Error(
        "E0203", wish.Place, $"`{key}` is what it is: `{(wish.Strength == Strength.Must ? "exactly" : "about")}` means nothing here",
        $"write {LengthText.Write(wish.Value, wish.Unit)}");

    public static Diagnostic UnknownFormat(LengthProblem problem, SourcePlace place) => Error(
        "E0204", place, problem.Problem, problem.Remedy);

    public static Diagnostic BadTone(string tone, SourcePlace place, string remedy) => Error(
        "E0205", place, $"`{tone}` is no tone", remedy);

    public static Diagnostic BadName(string name, SourcePlace place) => Error(
        "E0206", place, $"`{name}` cannot be a name",
        "use lower-case letters, digits and single hyphens, with a letter first, at most 60 in all");

    public static Diagnostic NameOfCard(SourcePlace place) => Error(
        "E0206", place, "`card` is the name of the card itself", "use another name");

    public static Diagnostic NameTwice(string name, SourcePlace place, SourcePlace earlier) => Error(
        "E0207", place, $"the name `{name}` is taken", "give one of the two another name") with
    {
        Related = [new(earlier, "by what stands here")],
    };

    public static Diagnostic UnknownPaper(string name, SourcePlace place, IEnumerable<string> papers) => Error(
        "E0208", place, $"there is no paper `{name}`", DidYouMean(name, papers) ?? $"add `{name}` to `papers`");

    public static Diagnostic UnknownPiece(string name, SourcePlace place, IEnumerable<string> pieces) => Error(
        "E0209", place, $"there is no piece or row `{name}`", DidYouMean(name, pieces) ?? "use the name of a piece or a row, or `card`");

    public static Diagnostic InsideItself(
        IReadOnlyList<string> circle, IReadOnlyList<(string Name, SourcePlace Place)> places, SourcePlace otherwise)
    {
        var way = string.Join(", ", circle.Append(circle[0]).Skip(1).Select(name => $"`{name}`"));
        var message = circle.Count == 1 ? $"`{circle[0]}` is placed on itself" : $"`{circle[0]}` is inside itself: it is on {way}";
        return Error("E0210", places.Count == 0 ? otherwise : places[0].Place, message, "place one of them on the card or on another piece") with
        {
            Related = [.. places.Skip(1).Select(entry => new RelatedPlace(entry.Place, $"what `{entry.Name}` is on"))],
        };
    }

    public static Diagnostic KeyOfOtherKind(string key, PieceKind kind, IReadOnlyList<PieceKind> kinds, SourcePlace place)
    {
        var word = Words.Of(Words.Kinds, kind);
        var instead = (key, kind) switch
        {
            ("width" or "height", PieceKind.Square) => "write `side` instead",
            ("width" or "height", PieceKind.Circle) => "write `diameter` instead",
            ("side" or "diameter", PieceKind.Square) => "write `side` instead",
            ("side" or "diameter", PieceKind.Circle) => "write `diameter` instead",
            ("side" or "diameter", _) => "write `width` and `height` instead",
            _ => "take it out, or change the kind",
        };
        var takers = kinds.Select(taker => Words.Of(Words.Kinds, taker)).ToList();
        return Error("E0211", place, $"a piece of the kind `{word}` has no `{key}`", instead) with
        {
            Notes = [$"`{key}` belongs to the {(takers.Count == 1 ? "kind" : "kinds")} {WordList.Quoted(takers)}"],
        };
    }

    public static Diagnostic Contradiction(string why, SyntaxMember member, SyntaxMember other) => Error(
        "E0212", member.KeyPlace, $"`{member.Key}` and `{other.Key}` contradict each other: {why}", "keep one of the two") with
    {
        Related = other.KeyPlace == member.KeyPlace ? [] : [new(other.KeyPlace, "the other stands here")],
    };

    public static Diagnostic NeedsOther(string key, string other, SourcePlace place) => Error(
        "E0213", place, $"`{key}` says nothing without `{other}`", $"add `{other}`, or take `{key}` out");

    public static Diagnostic HangsOverUnasked(string key, Wish distance) => Error(
        "E0214", distance.Place, $"`{key}` is {LengthText.Write(distance.Value, distance.Unit)}: the piece would hang over the edge of the card",
        "make it 0 or more, or let the piece hang over with `\"hangs-over\": true`");

    public static Diagnostic NegativeGap(Wish gap) => Error(
        "E0215", gap.Place, "a gap cannot be less than 0", $"write `\"overlap\": \"{LengthText.Write(-gap.Value, gap.Unit)}\"` instead of the gap");

    public static Diagnostic EndsLikeOverlaps(SourcePlace place) => Error(
        "E0215", place, "the ends of a row cannot be like its gaps where its pieces overlap", "take `ends-like-gaps` out, or give a `gap`");

    public static Diagnostic OwnNeighbour(string name, SourcePlace place) => Error(
        "E0216", place, $"`{name}` cannot be placed by itself", "name another piece");

    public static Diagnostic BesideCard(SourcePlace place) => Error(
        "E0216", place, "nothing lies beside the card", "use `from-left`, `from-right`, `from-top` or `from-bottom`");

    public static Diagnostic SaidByRow(string key, SourcePlace place) => Error(
        "E0217", place, $"a piece of a row has no `{key}` of its own",
        key == "name" ? "leave it out: the copies are named after the row" : $"write `{key}` for the whole row");

    public static Diagnostic RowFills(SourcePlace place) => Error(
        "E0217", place, "a row cannot fill what it is on", "let it `span` one way and `center` it the other way");

    public static Diagnostic WrongCount(string key, int count, int wanted, SourcePlace place) => Error(
        "E0218", place, string.Create(CultureInfo.InvariantCulture, $"`{key}` has {count} entries for {wanted} copies"),
        "write one for each copy, or a single one for all");

    public static Diagnostic TooWide(string key, Wish wish, string limit, Wish other) => Error(
        "E0219", wish.Place,
        $"`{key}` is {LengthText.Write(wish.Value, wish.Unit)}, but must be less than {limit}, {LengthText.Write(other.Value, other.Unit)}",
        "make it smaller") with
    {
        Related = [new(other.Place, "the size stands here")],
    };

    public static Diagnostic DepthOfStraightTail(SourcePlace place) => Error(
        "E0220", place, "a straight tail has no depth", "add `\"tail\": \"fishtail\"` or `\"pointed\"`, or take `tail-depth` out");

    public static Diagnostic HangsTwice(string said, string hung, SourcePlace place) => Error(
        "E0220", place, $"the piece is hung from the {hung} but says that it hangs from the {said}", "take `hangs-from` out");

    public static Diagnostic NoPicture(string file, string? meant, SourcePlace place) => Error(
        "E0226", place, $"there is no picture `{file}`", meant is null ? "name it as seen from the folder of the layout" : $"did you mean `{meant}`?");

    public static Diagnostic PictureNotRead(string file, string problem, string? meant, SourcePlace place) => Error(
        "E0227", place, $"the picture `{file}` cannot be read: {problem}",
        meant is null ? "make sure that the file may be read, or take it out of the layout" : $"name a picture in it, such as `{meant}`");

    public static Diagnostic BadRule(RuleProblem problem, SourcePlace place) => Error("E0221", place, problem.Problem, problem.Remedy);

    public static Diagnostic RuleTooLong(int length, int longest, SourcePlace place) => Error(
        "E0221", place, string.Create(CultureInfo.InvariantCulture, $"a rule of {length} characters is longer than {longest}"),
        "split it into several rules");

    public static Diagnostic NotLinear(RuleProblem problem, SourcePlace place) => Error("E0222", place, problem.Problem, problem.Remedy);

    public static Diagnostic RuleOfNothing(bool cancels, SourcePlace place) => Error(
        "E0223", place, cancels ? "the measures in this rule cancel out" : "this rule names no piece and no row",
        "name at least one piece or row whose measure is to follow the rule");

    public static Diagnostic MixedLengths(SourcePlace place) => Error(
        "E0224", place, "one length of this rule is pinned with `exactly` and another is not",
        "write `exactly` before every length of the rule, or before none");

    public static Diagnostic DieSize(LengthProblem problem, SourcePlace place) => Error("E0225", place, problem.Problem, problem.Remedy);

    // W02xx: there is a layout, but look at this.
    public static Diagnostic UnusedPaper(string paper, SourcePlace place) => Warning(
        "W0201", place, $"nothing is cut from the paper `{paper}`", "take it out of `papers`, or use it");

    public static Diagnostic InchNameInMetricFile(CardFormat inch, CardFormat iso, SourcePlace place) => Warning(
        "W0202", place,
        $"`{inch.Name}` is the inch format of {LengthText.WriteSize(inch.ShortSide, inch.LongSide, inch.Unit)}, not the ISO size",
        $"for {LengthText.WriteSize(iso.ShortSide, iso.LongSide, iso.Unit)} write `{iso.Name}`; for the inch format write `{inch.Name} in`");

    public static Diagnostic SameDieTwice(SourcePlace place, SourcePlace earlier) => Warning(
        "W0203", place, "the drawer already has this die", "take one of the two out") with
    {
        Related = [new(earlier, "the first stands here")],
    };

    private static Diagnostic Error(string code, SourcePlace place, string message, string remedy) =>
        new(code, Severity.Error, message, place) { Remedy = remedy };

    private static Diagnostic Warning(string code, SourcePlace place, string message, string remedy) =>
        new(code, Severity.Warning, message, place) { Remedy = remedy };

    private static string? DidYouMean(string word, IEnumerable<string> known) =>
        NearNames.Nearest(word, known) is { } near ? $"did you mean `{near}`?" : null;

    private static string MissingRemedy(string key) => key switch
    {
        "title" => "add a title, like `\"title\": \"Bean row thank-you\"`",
        "format" => "add a format, like `\"format\": \"A2\"`",
        "held" => "add `\"held\": \"portrait\"` or `\"held\": \"landscape\"`",
        "units" => "add `\"units\": \"in\"` or `\"units\": \"mm\"`",
        "base" => "add a base, like `\"base\": { \"paper\": \"kraft\" }`",
        "papers" => "add the papers, like `\"papers\": { \"kraft\": { \"tone\": \"burlywood\" } }`",
        "stock" => "add the paper there is, like `\"stock\": [ { \"name\": \"pad\", \"size\": \"6 x 6\", \"count\": 18, \"paper\": \"kraft\" } ]`",
        "size" => "add the size, like `\"size\": \"6 x 6\"`",
        "count" => "add how many, like `\"count\": 12`",
        "cards" => "add the cards wanted, like `\"cards\": [ { \"layout\": \"bean-row.json\", \"count\": 12 } ]`",
        "layout" => "add the layout file, like `\"layout\": \"bean-row.json\"`",
        "pieces" => "add a list of pieces, like `\"pieces\": [ ... ]`",
        "kind" => "add a kind, like `\"kind\": \"panel\"`",
        "runs" => "add `\"runs\": \"across\"` or `\"runs\": \"up-and-down\"`",
        "must" => "add `must`, `should` or `may` with the rule, like `\"should\": \"a.width = b.width\"`",
        _ => $"add `\"{key}\": ...`",
    };
}

using System.Numerics;
using CsCheck;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>As many cards as the paper gives.</summary>
public class SetTests
{
    private static readonly WantedPiece Front = Planned.Sixteenths("front", 64, 84, 1);
    private static readonly WantedPiece Tag = Planned.Sixteenths("tag", 32, 48, 1);

    [Fact]
    public void The_number_of_cards_is_proved_and_the_paper_that_runs_out_is_named()
    {
        // A front and two tags: one front a sheet, and the 2 x 6 beside it gives two 2 x 3 tags. Nine sheets, nine cards.
        var most = Find([Front, Tag], [Six("pad", 9)], [new("card", [new("front", 1), new("tag", 2)])]);
        Assert.Equal([new SetCount("card", 9)], most.Sets);
        Assert.True(most.IsProved);
        Assert.Equal(["pad"], most.RunsOut);
        Assert.Equal("front", most.RunsOutFor[0]);
    }

    [Fact]
    public void The_paper_that_gives_fewer_sets_is_the_one_that_runs_out()
    {
        // Four sheets of white give four fronts; three of green would give 36 tags.
        var most = Find(
            [Front with { From = ["white"] }, Tag with { From = ["green"] }],
            [Six("green", 3), Six("white", 4)],
            [new("card", [new("front", 1), new("tag", 2)])]);
        Assert.Equal([new SetCount("card", 4)], most.Sets);
        Assert.True(most.IsProved);
        Assert.Equal(["white"], most.RunsOut);
        Assert.Equal(["front"], most.RunsOutFor);
    }

    [Fact]
    public void A_limit_that_is_reached_needs_no_proof()
    {
        var most = Find([Front], [Six("pad", 9)], [new("card", [new("front", 1)]) { AtMost = 5 }]);
        Assert.Equal([new SetCount("card", 5)], most.Sets);
        Assert.True(most.IsProved);
        Assert.Null(most.Proof);
        Assert.Empty(most.RunsOut);
    }

    [Fact]
    public void The_weightier_card_is_made_first_and_the_other_from_what_is_left()
    {
        // The 2 x 6 strip beside each front gives two tags, whichever is preferred.
        var most = Find(
            [Front, Tag],
            [Six("pad", 4)],
            [new("small", [new("tag", 1)]), new("large", [new("front", 1)]) { Weight = 10 }]);
        Assert.Equal([new SetCount("small", 8), new SetCount("large", 4)], most.Sets);
        Assert.Equal(48, most.Weight);
        Assert.True(most.IsProved);
    }

    [Fact]
    public void Paper_for_not_even_one_gives_none_with_proof()
    {
        var most = Find([Front], [Six("pad", 1)], [new("card", [new("front", 2)])]);
        Assert.Equal([new SetCount("card", 0)], most.Sets);
        Assert.True(most.IsProved);
        Assert.Null(most.Plan);
    }

    [Fact]
    public void Sets_without_end_and_sets_of_nothing_are_refused_together()
    {
        var most = SetPlanner.Find(
            new([Front], [Six("pad", null)], new()),
            [new("endless", [new("front", 1)]), new("empty", []), new("lost", [new("ribbon", 1)])]);
        Assert.Equal(
            [
                new CuttingRefusal(RefusalReason.SetWithoutEnd, Stock: "endless"),
                new CuttingRefusal(RefusalReason.SetOutOfRange, Stock: "empty"),
                new CuttingRefusal(RefusalReason.SetOutOfRange, Stock: "lost"),
            ],
            most.Refusals);
    }

    [Theory]
    [InlineData(3, 5)]
    [InlineData(7, 5)]
    [InlineData(20, 12)]
    public void One_more_than_the_most_cannot_be_planned(int sheets, int longSheets)
    {
        // The bound is checked again like every other; and a plan for one more lacks something.
        WantedPiece[] pieces = [Planned.Sixteenths("mat", 60, 80, 1), Planned.Sixteenths("path", 28, 64, 1), Planned.Sixteenths("square", 22, 22, 1)];
        StockSheet[] stock = [Six("pad", sheets), new("long", Length.FromInches(12), Length.FromInches(4), longSheets, 3)];
        WantedSet set = new("card", [new("mat", 1), new("path", 2), new("square", 3)]);
        var most = Find(pieces, stock, [set]);
        var more = most.Sets[0].Count + 1;
        var job = new CuttingJob(
            [.. pieces.Select(piece => piece with { Count = more * set.Parts.Single(part => part.Piece == piece.Id).Each })], stock, new());
        Assert.NotEmpty(Planned.Check(job).Missing);
        Assert.True(most.Bound - most.Weight <= 1, $"{most.Weight} of at most {most.Bound}");
    }

    [Fact]
    public void Pieces_that_may_be_joined_are_counted_and_so_they_are_in_the_proof()
    {
        // A strip of 2 1/2 x 6 gives one half of a bed, whichever it is, so six give three beds, none of them whole.
        var most = Find(
            [Planned.Sixteenths("bed", 64, 84, 1) with { MayTurn = false }, Planned.Sixteenths("left", 29, 84, 0) with { MayTurn = false }, Planned.Sixteenths("right", 35, 84, 0) with { MayTurn = false }],
            [new("strips", Length.FromInches(5, 2), Length.FromInches(6), 6, 1)],
            [new("card", [new("bed", 1)])],
            [new("bed", ["left", "right"])]);
        Assert.Equal([new SetCount("card", 3)], most.Sets);
        Assert.True(most.IsProved);
        Assert.NotNull(most.Proof);
        Assert.Equal(3, Assert.Single(most.Plan!.Joined).Count);
    }

    [Fact]
    public void Stock_that_sets_bring_with_them_is_counted_and_so_it_is_in_the_proof()
    {
        // A sheet is a mat or a sign, and the window of a mat is a sign: four sheets are four mats with four signs out of their windows; with no window two.
        WantedPiece[] pieces = [Planned.Sixteenths("mat", 60, 60, 1) with { From = ["sheets"] }, Planned.Sixteenths("sign", 32, 32, 1)];
        StockSheet[] stock = [new("sheets", Length.FromInches(15, 4), Length.FromInches(15, 4), 4, 10), new("windows", Length.FromInches(3), Length.FromInches(3), 1, 1)];
        WantedSet card = new("card", [new("mat", 1), new("sign", 1)]) { Brings = [new("windows", 1)] };
        var most = Find(pieces, stock, [card]);
        Assert.Equal((4, true), ((int)most.Sets[0].Count, most.IsProved));
        Assert.Equal(2, Find([pieces[0], pieces[1] with { From = ["sheets"] }], stock[..1], [card with { Brings = [] }]).Sets[0].Count);
    }

    [Fact]
    public void Sets_of_great_weight_out_of_stock_for_few_of_them_are_counted_with_a_proof_that_holds()
    {
        var jobs =
            from sheets in Gen.Select(Gen.Int[20, 60], Gen.Int[20, 60], Gen.Int[1, 3]).Array[1, 2]
            from pieces in Gen.Select(Gen.Int[1, 24], Gen.Int[1, 24], Gen.Bool).Array[3, 4]
            from sets in Gen.Select(Gen.Int[0, 2], Gen.Int[1, 5], Gen.Int[0, 2]).Array[1, 2]
            from isJoined in Gen.Bool
            select (
                Pieces: pieces.Select((piece, n) => Planned.Sixteenths($"piece {n}", piece.Item1, piece.Item2, 1) with { MayTurn = piece.Item3 }).ToArray(),
                Stock: sheets.Select((sheet, n) => new StockSheet($"stock {n}", Length.FromInches(sheet.Item1, 16), Length.FromInches(sheet.Item2, 16), sheet.Item3, 1)).ToArray(),
                Sets: sets.Select((set, n) => new WantedSet($"set {n}", [.. pieces.Select((_, p) => new SetPart($"piece {p}", 1 + ((p + set.Item2) % 4)))])
                {
                    Weight = set.Item1 == 0 ? 1 : set.Item1 == 1 ? 1_000 : 1_000_000,
                    AtMost = set.Item3 == 0 ? null : 500 * set.Item3,
                }).ToArray(),
                Joins: isJoined ? (PieceJoin[])[new("piece 0", ["piece 1", "piece 2"])] : []);
        var counted = 0;
        for (var seed = 1u; seed <= 24; seed++)
        {
            // A piece that no sheet gives is another matter.
            var (pieces, stock, sets, joins) = jobs.Generate(new(1, seed), null, out _);
            if (SetPlanner.Find(new(pieces, stock, new()) { Joins = joins }, sets).Refusals.Count == 0)
            {
                Find(pieces, stock, sets, joins);
                counted++;
            }
        }

        Assert.True(counted > 12);
    }

    private static MostSets Find(
        IReadOnlyList<WantedPiece> pieces, IReadOnlyList<StockSheet> stock, IReadOnlyList<WantedSet> sets, params IReadOnlyList<PieceJoin> joins)
    {
        var job = new CuttingJob(pieces, stock, new()) { Joins = joins };
        var most = SetPlanner.Find(job, sets);
        Assert.Empty(most.Refusals);
        Assert.Equal(most.Weight, sets.Sum(set => set.Weight * Count(most, set)));
        Assert.True(most.Weight <= most.Bound);
        if (most.Plan is { } plan)
        {
            Assert.Empty(plan.Missing);
            Replay.Check(
                job with
                {
                    Pieces = [.. pieces.Select(piece => piece with { Count = sets.Sum(set => Count(most, set) * Each(set, piece.Id)) })
                        .Where(piece => piece.Count > 0 || joins.Any(join => join.Parts.Contains(piece.Id)))],
                    Stock = [.. stock.Select(sheet => sets.Sum(set => Count(most, set) * set.Brings.Where(brought => brought.Stock == sheet.Id).Sum(brought => brought.Each)) is > 0 and var brought
                        ? sheet with { Count = brought } : sheet)],
                },
                plan);
        }

        if (most.Proof is { } proof)
        {
            CheckProof(job, sets, proof);
            Assert.Equal(proof.Bound, most.Bound);
        }
        else
        {
            Assert.Equal(most.Bound, sets.Sum(set => set.Weight * set.AtMost!.Value));
        }

        return most;
    }

    private static void CheckProof(CuttingJob job, IReadOnlyList<WantedSet> sets, MostProof proof)
    {
        BigInteger sum = 0;
        foreach (var sheet in proof.Sheets)
        {
            var stock = job.Stock.Single(item => item.Id == sheet.Stock);
            Assert.True(MostWorth.Of(job, stock, proof.Pieces, sheet) <= sheet.Most);
            sum += sheet.Most == 0 || sets.Any(set => set.Brings.Any(brought => brought.Stock == sheet.Stock)) ? 0 : sheet.Most * (BigInteger)Assert.NotNull(stock.Count);
        }

        Assert.True(proof.WorthOfWeight > 0);
        Assert.Equal(job.Joins.Select(join => join.Piece), proof.Joins.Select(join => join.Piece));
        long Worth(string id) => proof.Pieces.Single(piece => piece.Piece == id).Worth;
        Assert.All(proof.Joins, join => Assert.True(join.Parts.Sum(Worth) >= Worth(join.Piece)));
        foreach (var set in sets)
        {
            var lack = (set.Weight * (BigInteger)proof.WorthOfWeight)
                + set.Brings.Aggregate(BigInteger.Zero, (total, brought) => total + (brought.Each * (BigInteger)proof.Sheets.Single(sheet => sheet.Stock == brought.Stock).Most))
                - proof.Pieces.Aggregate(BigInteger.Zero, (total, piece) => total + (piece.Worth * (BigInteger)Each(set, piece.Piece)));
            Assert.True(lack <= 0 || set.AtMost is not null);
            sum += BigInteger.Max(0, lack) * (set.AtMost ?? 0);
        }

        Assert.True(sum < (proof.Bound + 1) * (BigInteger)proof.WorthOfWeight);
    }

    private static long Each(WantedSet set, string piece) => set.Parts.Where(part => part.Piece == piece).Sum(part => part.Each);

    private static long Count(MostSets most, WantedSet set) => most.Sets.Single(count => count.Set == set.Id).Count;

    private static StockSheet Six(string id, long? count) => new(id, Length.FromInches(6), Length.FromInches(6), count, 1);
}

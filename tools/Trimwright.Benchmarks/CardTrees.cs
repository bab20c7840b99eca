using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Benchmarks;

/// <summary>
/// Systems like those of real layouts, of any size: a tree of pieces with four measures each, a cycle of mat, strip, circle, banner and a row of
/// three squares; mats nest three deep, and every third has equal reveals with a wished amount. Some wishes ask for more than there is. One
/// unit is 1/32 in. The same numbers always give the same system. Also compiled into the oracle tests.
/// </summary>
internal sealed class CardTrees
{
    private const int SheetWidth = 352;
    private const int SheetHeight = 272;
    private static readonly Rational Half = Rational.From(1, 2);

    private readonly Grid? _sizes;
    private readonly bool _isProportioned;
    private readonly List<Parent> _parents = [];
    private int _mats;
    private uint _state;

    private CardTrees(bool isCoupled, bool hasGrid, bool isProportioned, uint seed)
    {
        _sizes = hasGrid ? Grid.FromStep(2) : null;
        _isProportioned = isProportioned;
        _state = unchecked((seed * 2654435761u) + 12345u);
        var sheet = AddBox();
        _parents.Add(new(sheet, SheetWidth, SheetHeight, 0));
        Must(Relation.Equal, 0, (sheet.Left, 1));
        Must(Relation.Equal, 0, (sheet.Top, 1));
        foreach (var (side, size) in new[] { (sheet.Width, SheetWidth), (sheet.Height, SheetHeight) })
        {
            if (isCoupled)
            {
                Should(size, (side, 1));
                Must(Relation.AtLeast, size - 32, (side, 1));
                Must(Relation.AtMost, size + 32, (side, 1));
            }
            else
            {
                Must(Relation.Equal, size, (side, 1));
            }
        }
    }

    private readonly record struct Box(Measure Left, Measure Top, Measure Width, Measure Height);

    /// <summary>Something to place pieces on, with about the size it will have.</summary>
    private readonly record struct Parent(Box Box, int Width, int Height, int Depth);

    private WishSystem System { get; } = new();

    /// <summary>A system of so many pieces.</summary>
    /// <param name="pieces">How many.</param>
    /// <param name="isCoupled">Whether the size of the sheet is itself a wish, so that everything depends on everything; otherwise it is fixed.</param>
    /// <param name="hasGrid">Whether sizes are whole sixteenths.</param>
    /// <param name="seed">Another system of the same kind.</param>
    /// <param name="isProportioned">Whether banners follow 17/13 and circles sit at 7/11, which hardly ever fall on a grid.</param>
    public static WishSystem Build(int pieces, bool isCoupled, bool hasGrid, uint seed = 1, bool isProportioned = false)
    {
        var tree = new CardTrees(isCoupled, hasGrid, isProportioned, seed);
        for (int made = 0, turn = 0; made < pieces; turn++)
        {
            made += tree.Add(turn % 5, pieces - made);
        }

        return tree.System;
    }

    private int Add(int kind, int left)
    {
        var parent = _parents[Next(_parents.Count)];
        switch (kind)
        {
            case 0:
                AddMat(parent);
                return 1;
            case 1:
                AddStrip(parent);
                return 1;
            case 2:
                AddCircle(parent);
                return 1;
            case 3:
                AddBanner(parent);
                return 1;
            default:
                return left < 3 ? 0 : AddRow(parent);
        }
    }

    private void AddMat(Parent on)
    {
        var (mat, parent) = (AddBox(), on.Box);
        StayWithin(mat, parent, 2 + Next(4));
        Centre(mat, parent, across: true);
        Centre(mat, parent, across: false);
        if (++_mats % 3 == 0)
        {
            Must(Relation.Equal, 0, (mat.Left, 1), (parent.Left, -1), (mat.Top, -1), (parent.Top, 1));
            Should(3 + Next(20), (mat.Left, 1), (parent.Left, -1));
            May(About(on.Width), (mat.Width, 1));
        }
        else
        {
            Should(About(on.Width) + Next(2), (mat.Width, 1));
            Should(About(on.Height), (mat.Height, 1));
        }

        if (on.Depth < 3)
        {
            _parents.Add(new(mat, on.Width * 8 / 10, on.Height * 8 / 10, on.Depth + 1));
        }
    }

    private void AddStrip(Parent on)
    {
        var (strip, parent) = (AddBox(), on.Box);
        StayWithin(strip, parent, 0);
        Must(Relation.Equal, 0, (strip.Left, 1), (parent.Left, -1));
        Must(Relation.Equal, 0, (strip.Width, 1), (parent.Width, -1));
        Should(About(on.Height / 4) + Next(2), (strip.Height, 1));
        Should(About(on.Height / 2), (strip.Top, 1), (parent.Top, -1));
        Must(Relation.AtLeast, 8, (strip.Height, 1));
    }

    private void AddCircle(Parent on)
    {
        var (circle, parent) = (AddBox(), on.Box);
        StayWithin(circle, parent, 3);
        Must(Relation.Equal, 0, (circle.Width, 1), (circle.Height, -1));
        Centre(circle, parent, across: true);
        Should(About(Math.Min(on.Width, on.Height)), (circle.Width, 1));
        var down = _isProportioned ? Rational.From(-7, 11) : Rational.From(-1, 1 + Next(3));
        Should(0, (circle.Top, 1), (circle.Height, Half), (parent.Top, -1), (parent.Height, down));
    }

    private void AddBanner(Parent on)
    {
        var (banner, parent) = (AddBox(), on.Box);
        StayWithin(banner, parent, 1);
        if (_isProportioned)
        {
            Should(0, (banner.Height, 1), (banner.Width, Rational.From(-13, 17)));
        }
        else
        {
            Should(0, (banner.Height, 1), (parent.Height, Rational.From(-3, 10)));
            Must(Relation.AtLeast, 0, (banner.Width, 1), (banner.Height, -2));
        }

        Should(About(on.Width), (banner.Width, 1));
        Should(Next(30), (banner.Top, 1), (parent.Top, -1));
        Must(Relation.AtMost, -8, (banner.Left, 1), (banner.Width, 1), (parent.Left, -1), (parent.Width, -1));
        May(6, (banner.Left, 1), (parent.Left, -1));
    }

    private int AddRow(Parent on)
    {
        Box[] squares = [AddBox(), AddBox(), AddBox()];
        var (first, second, third, parent) = (squares[0], squares[1], squares[2], on.Box);
        foreach (var square in squares)
        {
            Must(Relation.Equal, 0, (square.Width, 1), (square.Height, -1));
        }

        foreach (var square in squares[1..])
        {
            Must(Relation.Equal, 0, (square.Width, 1), (first.Width, -1));
            Must(Relation.Equal, 0, (square.Top, 1), (first.Top, -1));
        }

        // The same gap before, between and behind them.
        Must(Relation.Equal, 0, (first.Left, 2), (first.Width, 1), (parent.Left, -1), (second.Left, -1));
        Must(Relation.Equal, 0, (second.Left, 2), (first.Left, -1), (third.Left, -1));
        Must(Relation.Equal, 0, (first.Left, 1), (third.Left, 1), (third.Width, 1), (parent.Left, -2), (parent.Width, -1));
        StayWithin(first, parent, 2);
        StayWithin(third, parent, 2);
        Should(4 + Next(30), (first.Left, 1), (parent.Left, -1));
        Should(About(on.Width / 3), (first.Width, 1));
        May(0, (first.Top, 1), (first.Height, Half), (parent.Top, -1), (parent.Height, -Half));
        return 3;
    }

    private Box AddBox() => new(
        System.AddMeasure(null, 0, 500), System.AddMeasure(null, 0, 500), System.AddMeasure(_sizes, 2, 400), System.AddMeasure(_sizes, 2, 400));

    private void Centre(Box box, Box parent, bool across) => Must(
        Relation.Equal, 0, (across ? box.Left : box.Top, 1), (across ? box.Width : box.Height, Half),
        (across ? parent.Left : parent.Top, -1), (across ? parent.Width : parent.Height, -Half));

    private void StayWithin(Box box, Box parent, int reveal)
    {
        Must(Relation.AtLeast, reveal, (box.Left, 1), (parent.Left, -1));
        Must(Relation.AtLeast, reveal, (box.Top, 1), (parent.Top, -1));
        Must(Relation.AtMost, -reveal, (box.Left, 1), (box.Width, 1), (parent.Left, -1), (parent.Width, -1));
        Must(Relation.AtMost, -reveal, (box.Top, 1), (box.Height, 1), (parent.Top, -1), (parent.Height, -1));
    }

    private void Must(Relation relation, Rational right, params (Measure Measure, Rational Factor)[] terms) =>
        Say(relation, right, Strength.Must, terms);

    private void Should(Rational right, params (Measure Measure, Rational Factor)[] terms) => Say(Relation.Equal, right, Strength.Should, terms);

    private void May(Rational right, params (Measure Measure, Rational Factor)[] terms) => Say(Relation.Equal, right, Strength.May, terms);

    private void Say(Relation relation, Rational right, Strength strength, (Measure Measure, Rational Factor)[] terms) =>
        System.Add([.. terms.Select(term => new Term(term.Measure, term.Factor))], relation, right, strength);

    // Mostly a part of what there is; now and then more than that.
    private int About(int room) => Next(6) == 0 ? room * 13 / 10 : room * (40 + Next(50)) / 100;

    // A linear congruential generator (Numerical Recipes): the same on every machine.
    private int Next(int below)
    {
        _state = unchecked((_state * 1664525) + 1013904223);
        return (int)((_state >> 8) % (uint)below);
    }
}

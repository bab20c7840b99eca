namespace Trimwright.Cutting;

/// <summary>A rectangle of a cut tree in grown units: cut in two, a piece, or waste.</summary>
internal sealed class Part(int width, int height)
{
    public int Width { get; } = width;

    public int Height { get; } = height;

    /// <summary>The shape of a piece, or -1.</summary>
    public int Shape { get; private set; } = -1;

    public bool Turned { get; private set; }

    public bool Upright { get; private set; }

    public Part? First { get; private set; }

    public Part? Second { get; private set; }

    public bool IsWaste => Shape < 0 && First is null;

    public static Part Piece(int width, int height, int shape, bool turned) => new(width, height) { Shape = shape, Turned = turned };

    public void Become(int shape, bool turned)
    {
        Shape = shape;
        Turned = turned;
    }

    /// <summary>Cuts it at a distance from its left (top) edge.</summary>
    public void Cut(bool upright, int at)
    {
        Upright = upright;
        First = upright ? new(at, Height) : new(Width, at);
        Second = upright ? new(Width - at, Height) : new(Width, Height - at);
    }

    public static Part Join(bool upright, Part first, Part second) =>
        new(upright ? first.Width + second.Width : first.Width, upright ? first.Height : first.Height + second.Height)
        {
            Upright = upright,
            First = first,
            Second = second,
        };

    /// <summary>All parts that are not cut.</summary>
    public void Leaves(List<Part> into)
    {
        if (First is null)
        {
            into.Add(this);
            return;
        }

        First.Leaves(into);
        Second!.Leaves(into);
    }

    /// <summary>Counts the pieces of each shape.</summary>
    public void Count(int[] into)
    {
        if (First is not null)
        {
            First.Count(into);
            Second!.Count(into);
        }
        else if (Shape >= 0)
        {
            into[Shape]++;
        }
    }

    /// <summary>Whether every cut keeps the holding rules.</summary>
    public bool KeepsRules(Lot lot)
    {
        if (First is null)
        {
            return true;
        }

        return lot.MayCut(Upright ? Height : Width) && TrimHolds(First) && TrimHolds(Second!) && First.KeepsRules(lot) && Second!.KeepsRules(lot);

        bool TrimHolds(Part part) => !part.IsWaste || lot.MayTrim(Upright ? part.Width : part.Height);
    }

    /// <summary>Takes back cuts between waste and waste.</summary>
    public void Merge()
    {
        if (First is null)
        {
            return;
        }

        First.Merge();
        Second!.Merge();
        if (First.IsWaste && Second.IsWaste)
        {
            First = null;
            Second = null;
        }
    }

    /// <summary>
    /// The same pieces with the waste of parallel cuts gathered into one strip at the end: slices lie in any order, and waste taken off in
    /// shavings takes as many cuts. Equal pieces that fill a rectangle are cut row by row: rows are stacked and cut alike.
    /// </summary>
    public Part Gathered(Lot lot)
    {
        if (First is null)
        {
            return this;
        }

        if (Rows(lot) is { } rows)
        {
            return rows;
        }

        var slices = new List<Part>();
        Slices(Upright, slices);
        if (slices.Count(slice => slice.IsWaste) < 2)
        {
            return Join(Upright, First.Gathered(lot), Second!.Gathered(lot));
        }

        var kept = slices.FindAll(slice => !slice.IsWaste).ConvertAll(slice => slice.Gathered(lot));
        var waste = slices.Where(slice => slice.IsWaste).Sum(slice => Upright ? slice.Width : slice.Height);
        kept.Add(Upright ? new(waste, Height) : new(Width, waste));
        return JoinAll(Upright, kept);
    }

    private static Part JoinAll(bool upright, List<Part> slices)
    {
        var joined = slices[^1];
        for (var n = slices.Count - 2; n >= 0; n--)
        {
            joined = Join(upright, slices[n], joined);
        }

        return joined;
    }

    /// <summary>The rectangle as rows or columns of one piece, the long cuts first where both can be held; null if it is not that.</summary>
    private Part? Rows(Lot lot)
    {
        var leaves = new List<Part>();
        Leaves(leaves);
        var piece = leaves[0];
        if (leaves.Count < 4 || piece.IsWaste || leaves.Exists(leaf => leaf.Shape != piece.Shape || leaf.Width != piece.Width || leaf.Height != piece.Height)
            || Width % piece.Width != 0 || Height % piece.Height != 0)
        {
            return null;
        }

        var (across, down) = (Width / piece.Width, Height / piece.Height);
        var mayLevel = (down == 1 || lot.MayCut(Width)) && (across == 1 || lot.MayCut(piece.Height));
        var mayUpright = (across == 1 || lot.MayCut(Height)) && (down == 1 || lot.MayCut(piece.Width));
        if (!mayLevel && !mayUpright)
        {
            return null;
        }

        var upright = mayUpright && (!mayLevel || Height > Width);
        var (lines, each) = upright ? (across, down) : (down, across);
        return JoinAll(upright, [.. Enumerable.Range(0, lines).Select(_ => JoinAll(
            !upright, [.. Enumerable.Range(0, each).Select(_ => Piece(piece.Width, piece.Height, piece.Shape, piece.Turned))]))]);
    }

    private void Slices(bool upright, List<Part> into)
    {
        if (First is null || Upright != upright)
        {
            into.Add(this);
            return;
        }

        First.Slices(upright, into);
        Second!.Slices(upright, into);
    }

    /// <summary>The tree as text: equal for equal trees only.</summary>
    public void WriteKey(System.Text.StringBuilder into)
    {
        if (First is null)
        {
            into.Append(Shape < 0 ? "w" : Turned ? "t" : "p").Append(Shape);
            return;
        }

        into.Append(Upright ? '|' : '-').Append(Upright ? First.Width : First.Height).Append('(');
        First.WriteKey(into);
        into.Append(',');
        Second!.WriteKey(into);
        into.Append(')');
    }

    /// <summary>A copy that can be cut further.</summary>
    public Part Copy() => First is null
        ? new(Width, Height) { Shape = Shape, Turned = Turned }
        : new(Width, Height) { Upright = Upright, First = First.Copy(), Second = Second!.Copy() };
}

/// <summary>A way to cut one sheet, with what comes out of it.</summary>
internal sealed class Pattern
{
    public Pattern(int stock, Part root, int shapes)
    {
        Stock = stock;
        Root = root;
        Counts = new int[shapes];
        root.Count(Counts);
    }

    /// <summary>The place of the stock in the lot.</summary>
    public int Stock { get; }

    public Part Root { get; }

    /// <summary>The parts that are not cut.</summary>
    public IReadOnlyList<Part> Leaves
    {
        get
        {
            var leaves = new List<Part>();
            Root.Leaves(leaves);
            return leaves;
        }
    }

    /// <summary>How many of each shape.</summary>
    public int[] Counts { get; }

    /// <summary>Equal for patterns of equal stock and tree only.</summary>
    public string Key()
    {
        var key = new System.Text.StringBuilder().Append(Stock).Append(':');
        Root.WriteKey(key);
        return key.ToString();
    }

    /// <summary>The area of the pieces, grown.</summary>
    public long Used(Lot lot)
    {
        var used = 0L;
        for (var k = 0; k < Counts.Length; k++)
        {
            used += Counts[k] * lot.Shapes[k].Area;
        }

        return used;
    }
}

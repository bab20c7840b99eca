using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>Finds where leaders may end, and counts what a leader costs, in millimetres of leader: the shorter and the clearer, the cheaper.</summary>
internal sealed class LeaderFinder
{
    /// <summary>A leader that may be: from its dot by its knee to its callout.</summary>
    /// <param name="Dot">Where it ends on the face.</param>
    /// <param name="KneeX">Where its level part begins.</param>
    /// <param name="EndX">Where it ends beside the callout.</param>
    /// <param name="Y">How far down its level part is.</param>
    /// <param name="Bottom">Where the callout ends.</param>
    /// <param name="Layer">The layer that it speaks of.</param>
    public readonly record struct Leader(Spot Dot, double KneeX, double EndX, double Y, double Bottom, int Layer);

    // Running through words is worse than anything, and running past another leader's dot seems to speak of its piece; what follows is
    // only unlovely.
    private const double Words = 2000;
    private const double Crossing = 120;
    private const double NearDot = 250;
    private const double Steep = 30;
    private const double NotLevel = 3;
    private const double PerSlant = 0.5;
    private const double AlongLine = 5;
    private const double OverHigher = 0.6;
    private const double OffFace = 0.8;

    /// <summary>How far a leader keeps from words.</summary>
    public const double ClearOfWords = 0.9;

    private const double ClearOfLines = 1.2;
    private const double ClearOfDots = 1.5;
    private const int Rows = 13;
    private const int FineRows = 37;
    private const int MostTargets = 4;

    // On the overview of a crowd of pieces leaders cannot but run over others.
    private const int MostLookedAt = 80;

    // A dot keeps this far from edges that can be seen, or less on a small piece. Much is seen of most; of what sticks out from under
    // something else, only a finer look finds it.
    private static readonly (double Clear, int Rows)[] Looks = [(2, Rows), (1.2, Rows), (1.2, FineRows), (0.7, Rows), (0.5, FineRows), (0.3, FineRows)];

    private readonly Sight _sight;
    private readonly Area _face;
    private readonly Area[] _words;
    private readonly double _tallest;
    private readonly bool _isCrowd;
    private readonly (Spot Start, Spot End)[] _upright;
    private readonly (Spot Start, Spot End)[] _level;
    private readonly (double Y, double From, double To)[] _levels;
    private readonly Area[] _areas;
    private readonly IReadOnlyList<(Spot Start, Spot End)> _marks;

    /// <summary>Looks at what leaders must keep clear of.</summary>
    /// <param name="sight">What can be seen on the face.</param>
    /// <param name="face">The area of the face.</param>
    /// <param name="words">The areas of the words placed so far.</param>
    /// <param name="extensions">Extension lines: a leader should not run along one, nor a dot lie on one.</param>
    /// <param name="marks">Other lines on the face, which no dot may lie on: dimensions on tilted pieces, centre marks.</param>
    public LeaderFinder(
        Sight sight, Area face, IEnumerable<Area> words, IReadOnlyList<(Spot Start, Spot End)> extensions, IReadOnlyList<(Spot Start, Spot End)> marks)
    {
        (_sight, _face, _marks) = (sight, face, marks);
        _words = [.. words.Select(area => area.Grown(ClearOfWords)).OrderBy(area => area.Top)];
        _tallest = _words.Length == 0 ? 0 : _words.Max(area => area.Bottom - area.Top);
        _upright = [.. extensions.Where(line => line.Start.X == line.End.X)];
        _level = [.. extensions.Where(line => line.Start.Y == line.End.Y)];
        _isCrowd = sight.Shapes.Length > MostLookedAt;
        _areas = [.. sight.Shapes.Select(shape => shape.Area)];
        _levels =
        [
            .. _level.Select(line => (line.Start.Y, line.Start.X, line.End.X))
                .Concat((_isCrowd ? [] : sight.Shapes).Where(shape => shape.Cos == 1).SelectMany(shape => ((double, double, double)[])
                    [(shape.Area.Top, shape.Area.Left, shape.Area.Right), (shape.Area.Bottom, shape.Area.Left, shape.Area.Right)]))
                .OrderBy(line => line.Item1),
        ];
    }

    /// <summary>What two leaders cost because of each other.</summary>
    public static double Between(PlacedCallout a, PlacedCallout b) =>
        (Plane.Cross(a.Dot, a.Knee, b.Dot, b.Knee) ? Crossing : 0)
        + (Plane.Distance(b.Dot, a.Dot, a.Knee) < ClearOfDots || Plane.Distance(a.Dot, b.Dot, b.Knee) < ClearOfDots ? NearDot : 0);

    /// <summary>The middle of a layer, for what is hidden altogether, or a place beside it that lies on no words.</summary>
    public Spot MiddleOf(int target)
    {
        var area = _sight.Shapes[target].Area;
        var (x, y) = ((area.Left + area.Right) / 2, (area.Top + area.Bottom) / 2);
        return new(FreeFrom(x, area.Right, y, 1) ?? FreeFrom(x, area.Left, y, -1) ?? x, y);
    }

    /// <summary>Whether a leader runs through any of the words.</summary>
    public static bool IsBroken(PlacedCallout placed, IReadOnlyList<Area> words) =>
        words.Any(area => area.Grown(Air / 2).Meets(placed.Dot, placed.Knee));

    /// <summary>
    /// Some dots to choose from for a column on the left, and some for one on the right: at several heights of what is seen of the
    /// layers, the outermost place. None where nothing is seen of them.
    /// </summary>
    public (List<Spot> Left, List<Spot> Right) DotsOf(IReadOnlyList<int> targets)
    {
        List<Spot> left = [];
        List<Spot> right = [];
        var step = Math.Max(1, targets.Count / MostTargets);
        for (var i = 0; i < targets.Count; i += step)
        {
            var target = targets[i + step >= targets.Count ? targets.Count - 1 : i];
            var area = _sight.Shapes[target].Area;
            var near = _sight.Near(area);
            foreach (var (clear, rows) in Looks)
            {
                if (left.Count == 0)
                {
                    AddDots(target, near, area, clear, rows, left, right);
                }
            }
        }

        return (left, right);
    }

    private void AddDots(int target, List<int> near, Area area, double clear, int rows, List<Spot> left, List<Spot> right)
    {
        var room = area.Bottom - area.Top - (2 * clear);
        if (room < 0)
        {
            return;
        }

        for (var row = 0; row < rows; row++)
        {
            var y = area.Top + clear + (room * (row + 0.5) / rows);
            var seen = _sight.Seen(target, near, y - clear, y + clear, clear);
            if (seen.Count == 0 || _level.Any(line => Math.Abs(line.Start.Y - y) < ClearOfLines && line.Start.X < seen[^1].To && line.End.X > seen[0].From))
            {
                continue;
            }

            if (FreeFrom(seen[0].From, seen[0].To, y, 1) is { } first)
            {
                left.Add(new(first, y));
            }

            if (FreeFrom(seen[^1].To, seen[^1].From, y, -1) is { } last)
            {
                right.Add(new(last, y));
            }
        }

        // Both lists have a dot or neither has.
        if (left.Count == 0 || right.Count == 0)
        {
            left.AddRange(right);
            right.AddRange(left.Take(right.Count == 0 ? left.Count : 0));
        }
    }

    /// <summary>The first place from one end of a stretch that lies on no upright extension line.</summary>
    private double? FreeFrom(double x, double end, double y, int way)
    {
        for (; (end - x) * way >= 0; x += way * ClearOfLines)
        {
            var free = !IsOnWords(x, y);
            foreach (var (start, stop) in _upright)
            {
                free &= Math.Abs(start.X - x) >= ClearOfLines || y < start.Y - 1 || y > stop.Y + 1;
            }

            foreach (var (start, stop) in _marks)
            {
                free = free && Plane.Distance(new(x, y), start, stop) >= ClearOfDots;
            }

            if (free)
            {
                return x;
            }
        }

        return null;
    }

    private bool IsOnWords(double x, double y)
    {
        for (var i = FirstWordFrom(y - _tallest); i < _words.Length && _words[i].Top <= y; i++)
        {
            if (_words[i].Left < x && _words[i].Right > x && _words[i].Bottom > y)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>What a leader costs by itself.</summary>
    public double Cost(in Leader leader)
    {
        var (dot, knee, end) = (leader.Dot, new Spot(leader.KneeX, leader.Y), new Spot(leader.EndX, leader.Y));
        var (rise, run) = (Math.Abs(dot.Y - knee.Y), Math.Abs(dot.X - knee.X));
        var cost = Math.Sqrt((rise * rise) + (run * run)) + (rise > 1.7 * run ? Steep : 0) + (rise > 0 ? NotLevel + (PerSlant * rise) : 0)
            + (OffFace * (Math.Max(0, _face.Top - knee.Y) + Math.Max(0, leader.Bottom - _face.Bottom)));
        var (high, low) = (Math.Min(dot.Y, knee.Y), Math.Max(dot.Y, knee.Y));
        for (var i = FirstWordFrom(high - _tallest); i < _words.Length && _words[i].Top <= low; i++)
        {
            cost += _words[i].Meets(dot, knee) || _words[i].Meets(knee, end) ? Words : 0;
        }

        for (var i = FirstLevelFrom(high - ClearOfLines); i < _levels.Length && _levels[i].Y <= low + ClearOfLines; i++)
        {
            var (y, from, to) = _levels[i];
            cost += AlongLine * Plane.RunAlong(dot, knee, new(from, y), new(to, y), ClearOfLines);
        }

        return _isCrowd ? cost : cost + (OverHigher * Over(leader.Layer, dot, knee));
    }

    private int FirstWordFrom(double top)
    {
        var (low, high) = (0, _words.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _words[middle].Top < top ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    private int FirstLevelFrom(double top)
    {
        var (low, high) = (0, _levels.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _levels[middle].Y < top ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>How far a leader runs over what lies above the layer: there it would seem to speak of something else.</summary>
    private double Over(int layer, Spot dot, Spot knee)
    {
        var over = 0.0;
        for (var i = layer + 1; i < _areas.Length; i++)
        {
            if (_areas[i].Within(dot, knee) is var (enter, leave))
            {
                over += leave - enter;
            }
        }

        return over * dot.To(knee);
    }
}

using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Finds everything that is wrong with a job, at once.</summary>
internal static class JobChecks
{
    // In millimetres. A leftover worth keeping that is larger than every sheet is no slip: nothing is kept.
    private const long FarthestRule = CuttingPlanner.LongestSide * 1_000;

    // In millimetres. A longest sheet and a kerf together are still a whole number of 32 bits in nanometres.
    private const long WidestKerf = CuttingPlanner.LongestSide / 20;

    // Sums of sides that are tried, so that pieces of a few nanometres take no time.
    private const int MostSums = 10_000;

    public static List<CuttingRefusal> Check(CuttingJob job)
    {
        var refusals = new List<CuttingRefusal>();
        CheckRules(job.Rules, refusals);
        var soundStock = CheckStock(job.Stock, refusals);
        CheckPieces(job, soundStock, rulesAreSound: !refusals.Any(refusal => refusal.Reason == RefusalReason.RuleOutOfRange), refusals);
        return refusals;
    }

    private static void CheckRules(CuttingRules rules, List<CuttingRefusal> refusals)
    {
        Length[] sizes = [rules.Kerf, rules.LeastCut, rules.LeastTrim, rules.OffcutWidth, rules.OffcutHeight];
        if (sizes.Any(size => size < Length.Zero) || rules.StackLimit < 1
            || sizes.Any(size => size > Length.FromMillimetres(FarthestRule)) || rules.Kerf > Length.FromMillimetres(WidestKerf)
            || (rules.OffcutWidth.IsZero && rules.OffcutHeight.IsZero))
        {
            refusals.Add(new(RefusalReason.RuleOutOfRange));
        }
    }

    private static HashSet<string> CheckStock(IReadOnlyList<StockSheet> stock, List<CuttingRefusal> refusals)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        var sound = new HashSet<string>(StringComparer.Ordinal);
        foreach (var sheet in stock)
        {
            var before = refusals.Count;
            if (!ids.Add(sheet.Id))
            {
                refusals.Add(new(RefusalReason.SameId, Stock: sheet.Id));
            }

            var sizeIsSound = IsSize(sheet.Width) && IsSize(sheet.Height);
            if (!sizeIsSound)
            {
                refusals.Add(new(RefusalReason.SizeOutOfRange, Stock: sheet.Id));
            }

            if (sheet.Count is < 1)
            {
                refusals.Add(new(RefusalReason.CountOutOfRange, Stock: sheet.Id));
            }

            if (sheet.Cost < (sheet.Count is null ? 1 : 0) || sheet.Cost > CuttingPlanner.GreatestCost)
            {
                refusals.Add(new(RefusalReason.CostOutOfRange, Stock: sheet.Id));
            }

            if (sizeIsSound && !MarginsFit(sheet))
            {
                refusals.Add(new(RefusalReason.MarginsTooLarge, Stock: sheet.Id));
            }

            if (refusals.Count == before)
            {
                sound.Add(sheet.Id);
            }
        }

        return sound;
    }

    private static void CheckPieces(CuttingJob job, HashSet<string> soundStock, bool rulesAreSound, List<CuttingRefusal> refusals)
    {
        if (job.Pieces.Count == 0)
        {
            refusals.Add(new(RefusalReason.NoPieces));
        }

        var stockIds = job.Stock.Select(sheet => sheet.Id).ToHashSet(StringComparer.Ordinal);
        var ids = new HashSet<string>(StringComparer.Ordinal);
        Int128 pieces = 0;
        foreach (var piece in job.Pieces)
        {
            var before = refusals.Count;
            if (!ids.Add(piece.Id))
            {
                refusals.Add(new(RefusalReason.SameId, piece.Id));
            }

            if (!IsSize(piece.Width) || !IsSize(piece.Height))
            {
                refusals.Add(new(RefusalReason.SizeOutOfRange, piece.Id));
            }

            pieces += Math.Max(piece.Count, 0);
            if (piece.Count < 1 || pieces > CuttingPlanner.MostPieces)
            {
                refusals.Add(new(RefusalReason.CountOutOfRange, piece.Id));
            }

            foreach (var id in (piece.From ?? []).Concat(piece.Lies.Select(lie => lie.Stock)).Where(id => !stockIds.Contains(id)).Distinct(StringComparer.Ordinal))
            {
                refusals.Add(new(RefusalReason.UnknownStock, piece.Id, id));
            }

            foreach (var twice in piece.Lies.GroupBy(lie => lie.Stock, StringComparer.Ordinal).Where(same => same.Count() > 1))
            {
                refusals.Add(new(RefusalReason.SameId, piece.Id, twice.Key));
            }

            if (refusals.Count == before)
            {
                CheckFits(job, piece, soundStock, rulesAreSound, refusals);
            }
        }
    }

    private static void CheckFits(
        CuttingJob job, WantedPiece piece, HashSet<string> soundStock, bool rulesAreSound, List<CuttingRefusal> refusals)
    {
        var allowed = job.Stock.Where(sheet => piece.MayComeFrom(sheet.Id)).ToList();
        if (allowed.Count == 0)
        {
            refusals.Add(new(RefusalReason.NoStock, piece.Id));
            return;
        }

        // What is wrong with the stock has been said; a piece is measured against the sheets that are sound, or else against nothing.
        allowed = [.. allowed.Where(sheet => soundStock.Contains(sheet.Id))];
        if (allowed.Count == 0)
        {
            return;
        }

        if (!allowed.Any(sheet => piece.WaysOn(sheet.Id).Any(way => way.Width <= Trued(sheet).Width && way.Height <= Trued(sheet).Height)))
        {
            var nearest = allowed.MinBy(sheet => (sheet.Margins.Left + sheet.Margins.Right + sheet.Margins.Top + sheet.Margins.Bottom).Nanometres)!;
            var (width, height, _) = piece.WaysOn(nearest.Id).First();
            refusals.Add(new(RefusalReason.PieceTooLarge, piece.Id)
            {
                SheetWidth = width + nearest.Margins.Left + nearest.Margins.Right,
                SheetHeight = height + nearest.Margins.Top + nearest.Margins.Bottom,
            });
        }
        else if (rulesAreSound)
        {
            CheckHeld(job, piece, allowed, refusals);
        }
    }

    private static void CheckHeld(CuttingJob job, WantedPiece piece, List<StockSheet> allowed, List<CuttingRefusal> refusals)
    {
        var rules = job.Rules;
        var ways = allowed.SelectMany(sheet => piece.WaysOn(sheet.Id).Select(way => Held((way.Width, way.Height), Trued(sheet)))).OfType<(Length Cut, Length Trim)>().ToList();
        if (ways.Exists(way => way.Cut >= rules.LeastCut && way.Trim >= rules.LeastTrim) || allowed.Exists(sheet => MayBeHeldWithOthers(job, piece, sheet)))
        {
            return;
        }

        // One rule alone is better changed than both.
        var best = ways.FindAll(way => way.Trim >= rules.LeastTrim) is { Count: > 0 } cut ? cut.MaxBy(way => way.Cut)
            : ways.FindAll(way => way.Cut >= rules.LeastCut) is { Count: > 0 } trim ? trim.MaxBy(way => way.Trim)
            : ways.MaxBy(way => way.Trim);
        refusals.Add(new(RefusalReason.PieceCannotBeHeld, piece.Id)
        {
            LeastCut = best.Cut < rules.LeastCut ? best.Cut : null,
            LeastTrim = best.Trim < rules.LeastTrim ? best.Trim : null,
        });
    }

    /// <summary>
    /// Whether a piece could be cut out where other pieces lie beside it: too little beside it to be shaved off is no waste if they fill it to the
    /// nanometre. There is no room for waste beside them either.
    /// </summary>
    private static bool MayBeHeldWithOthers(CuttingJob job, WantedPiece piece, StockSheet sheet)
    {
        var (width, height) = Trued(sheet);
        var others = job.Pieces.Where(other => other.MayComeFrom(sheet.Id) && (other.Id != piece.Id || piece.Count > 1))
            .SelectMany(other => other.WaysOn(sheet.Id)).ToList();
        return piece.WaysOn(sheet.Id).Any(way => Held((way.Width, way.Height), (width, height)) is { } held && held.Cut >= job.Rules.LeastCut
            && MayBeside(width - way.Width, others.Select(other => other.Width)) && MayBeside(height - way.Height, others.Select(other => other.Height)));

        bool MayBeside(Length room, IEnumerable<Length> sides) => room.IsZero || room >= job.Rules.LeastTrim || IsSumOf(
            room.Nanometres, [.. sides.Select(side => (side + job.Rules.Kerf).Nanometres).Where(side => side > 0).Distinct()]);
    }

    /// <summary>Whether some of these sides, any number of each, are together as long as the room. Too many sums to try count as one of them.</summary>
    private static bool IsSumOf(long room, List<long> sides)
    {
        var sums = new SortedSet<long> { 0 };
        for (var tried = 0; sums.Count > 0 && tried < MostSums; tried++)
        {
            var sum = sums.Min;
            sums.Remove(sum);
            foreach (var side in sides)
            {
                if (side == room - sum)
                {
                    return true;
                }

                if (side < room - sum)
                {
                    sums.Add(sum + side);
                }
            }
        }

        return sums.Count > 0;
    }

    /// <summary>The shortest cut and the thinnest waste when a piece is cut out of a sheet, in the better order of the two cuts; null if it does not fit.</summary>
    private static (Length Cut, Length Trim)? Held((Length Width, Length Height) piece, (Length Width, Length Height) sheet)
    {
        var right = sheet.Width - piece.Width;
        var below = sheet.Height - piece.Height;
        if (right < Length.Zero || below < Length.Zero)
        {
            return null;
        }

        // Where nothing is cut off nothing has to be held.
        var none = Length.FromNanometres(long.MaxValue);
        var uprightFirst = Length.Min(right.IsZero ? none : sheet.Height, below.IsZero ? none : piece.Width);
        var levelFirst = Length.Min(below.IsZero ? none : sheet.Width, right.IsZero ? none : piece.Height);
        return (Length.Max(uprightFirst, levelFirst), Length.Min(right.IsZero ? none : right, below.IsZero ? none : below));
    }

    public static (Length Width, Length Height) Trued(StockSheet sheet) => (
        sheet.Width - sheet.Margins.Left - sheet.Margins.Right, sheet.Height - sheet.Margins.Top - sheet.Margins.Bottom);

    private static bool IsSize(Length length) => length > Length.Zero && length <= Length.FromMillimetres(CuttingPlanner.LongestSide);

    private static bool MarginsFit(StockSheet sheet)
    {
        var margins = sheet.Margins;
        Length[] all = [margins.Left, margins.Top, margins.Right, margins.Bottom];
        return all.All(margin => margin >= Length.Zero && margin < sheet.Width + sheet.Height)
            && Trued(sheet).Width > Length.Zero && Trued(sheet).Height > Length.Zero;
    }
}

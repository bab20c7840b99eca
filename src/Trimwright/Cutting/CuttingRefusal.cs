using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Why a job cannot be planned.</summary>
public enum RefusalReason
{
    /// <summary>Nothing is wanted.</summary>
    NoPieces,

    /// <summary>Two pieces, or two kinds of stock, have one id; or a piece says twice how it lies on one stock.</summary>
    SameId,

    /// <summary>A width or height is not positive, or longer than <see cref="CuttingPlanner.LongestSide"/>.</summary>
    SizeOutOfRange,

    /// <summary>A count is less than 1, or the pieces in all are more than <see cref="CuttingPlanner.MostPieces"/>.</summary>
    CountOutOfRange,

    /// <summary>A cost is negative, zero for stock without limit, or larger than <see cref="CuttingPlanner.GreatestCost"/>.</summary>
    CostOutOfRange,

    /// <summary>A rule of the tool is negative, or the stack limit is less than 1.</summary>
    RuleOutOfRange,

    /// <summary>A margin is negative, or the margins leave nothing of the sheet.</summary>
    MarginsTooLarge,

    /// <summary>A piece names stock that there is not.</summary>
    UnknownStock,

    /// <summary>A piece may come from no stock at all.</summary>
    NoStock,

    /// <summary>A piece is larger than every sheet it may come from. The refusal names the least sheet, margins included, that would do.</summary>
    PieceTooLarge,

    /// <summary>
    /// A piece fits a sheet, but cannot be cut out of any under the rules: a cut would be shorter than <see cref="CuttingRules.LeastCut"/>
    /// or shave off less than <see cref="CuttingRules.LeastTrim"/>.
    /// </summary>
    PieceCannotBeHeld,

    /// <summary>
    /// A set has no parts, names a piece that there is not or takes less than one of it, the same of stock that it brings, or its weight or limit is less than 1. The
    /// refusal has the id of the set in place of the stock's.
    /// </summary>
    SetOutOfRange,

    /// <summary>A join names pieces that there are not, or fewer than two parts, or a part that is joined itself.</summary>
    JoinOutOfRange,

    /// <summary>Nothing limits how many of a set can be made: neither a limit of its own nor the stock. The id of the set is in place of the stock's.</summary>
    SetWithoutEnd,
}

/// <summary>One reason why a job cannot be planned. All of them are found at once.</summary>
/// <param name="Reason">What is wrong.</param>
/// <param name="Piece">The id of the piece, or null.</param>
/// <param name="Stock">The id of the stock, or null. For an unknown stock, the id that was named.</param>
public sealed record CuttingRefusal(RefusalReason Reason, string? Piece = null, string? Stock = null)
{
    /// <summary>For a piece too large: the width of the least sheet that would do; zero otherwise.</summary>
    public Length SheetWidth { get; init; }

    /// <summary>For a piece too large: the height of the least sheet that would do.</summary>
    public Length SheetHeight { get; init; }

    /// <summary>For a piece that cannot be held: the greatest <see cref="CuttingRules.LeastCut"/> that would do; null if it is not in the way.</summary>
    public Length? LeastCut { get; init; }

    /// <summary>For a piece that cannot be held: the greatest <see cref="CuttingRules.LeastTrim"/> that would do; null if it is not in the way.</summary>
    public Length? LeastTrim { get; init; }
}

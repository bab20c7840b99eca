using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>
/// The eight terms of the Assessment of Preference for Balance: each the difference of the weights of two areas that share a face, in
/// hundredths of the whole weight, from 0 (equal) to 100 (all in one of the two).
/// </summary>
/// <remarks>
/// "The Assessment of Preference for Balance: Introducing a New Test", Empirical Studies of the Arts 23(2), 2005. Areas are equal in
/// pairs. The face is brought to the unit square first, so that its diagonals go from corner to corner; the inner bands along the
/// diagonals end at k = 1 - 1/sqrt 2 from them, which gives them half the area. That the paper draws these bands so could not be checked.
/// </remarks>
/// <param name="LeftRight">Left half against right half.</param>
/// <param name="MiddleAcross">The middle half against the two outer quarters, across.</param>
/// <param name="TopBottom">Top half against bottom half.</param>
/// <param name="MiddleDown">The middle half against the two outer quarters, up and down.</param>
/// <param name="FallingDiagonal">One side against the other of the diagonal from the upper left corner.</param>
/// <param name="MiddleFalling">The band along that diagonal against the two corners beside it.</param>
/// <param name="RisingDiagonal">One side against the other of the diagonal from the lower left corner.</param>
/// <param name="MiddleRising">The band along that diagonal against the two corners beside it.</param>
public sealed record BalanceTerms(
    Rational LeftRight,
    Rational MiddleAcross,
    Rational TopBottom,
    Rational MiddleDown,
    Rational FallingDiagonal,
    Rational MiddleFalling,
    Rational RisingDiagonal,
    Rational MiddleRising)
{
    /// <summary>The mean of the eight: 0 is balanced, 100 the worst. A lone piece in the middle does not give 0: see docs/balance.md.</summary>
    public Rational Mean =>
        (LeftRight + MiddleAcross + TopBottom + MiddleDown + FallingDiagonal + MiddleFalling + RisingDiagonal + MiddleRising) / 8;
}

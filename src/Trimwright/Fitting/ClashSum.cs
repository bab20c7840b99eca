using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>Puts the arithmetic of a clash into a line that a maker can add up.</summary>
internal static class ClashSum
{
    // Factors such as the shape of a picture makes have so many figures that nobody could follow the sum.
    private const int MostFigures = 999;

    /// <summary>
    /// Such as <c>1/4 in + 3 in + 1/8 in + 2 in = 5 3/8 in, but the card gives 4 1/4 in</c>; null where no sum shows the clash.
    /// </summary>
    public static string? Of(SystemBuilder builder, Clash clash, LengthUnit unit)
    {
        if (ClashProof.Of(builder.System, clash) is not { } proof)
        {
            return null;
        }

        var card = Rational.Zero;
        var amounts = new List<(Rational Times, Rational Said)>();
        foreach (var (s, times) in proof.Lines)
        {
            var (said, ofCard) = builder.Amounts[s];
            card += times * ofCard;
            amounts.Add((times, said));
        }

        // What is left of the sum are the bounds: the least or the most that a measure can be at all.
        var bounds = proof.Sum - card - amounts.Aggregate(Rational.Zero, (sum, amount) => sum + (amount.Times * amount.Said));
        if (card.IsZero && builder.IsSideOfCard(bounds.Abs()))
        {
            card = bounds;
        }
        else
        {
            amounts.Add((bounds.Sign, bounds.Abs()));
        }

        amounts.RemoveAll(amount => (amount.Times * amount.Said).IsZero);
        if (amounts.Exists(amount => amount.Times.Abs().Numerator > MostFigures || amount.Times.Denominator > MostFigures))
        {
            return null;
        }

        return card.IsZero ? TwoSides(amounts, unit) : AgainstCard(amounts, card, unit);
    }

    private static string? AgainstCard(List<(Rational Times, Rational Said)> amounts, Rational card, LengthUnit unit)
    {
        // Turned so that the card stands alone on the right.
        var turned = amounts.ConvertAll(amount => card.Sign > 0 ? (Times: -amount.Times, amount.Said) : amount);
        return turned.Count == 0 ? null : $"{Added(turned, unit)}, but the card gives {Text(card.Abs(), unit)}";
    }

    private static string? TwoSides(List<(Rational Times, Rational Said)> amounts, LengthUnit unit)
    {
        var left = amounts.FindAll(amount => (amount.Times * amount.Said).Sign > 0);
        var right = amounts.FindAll(amount => (amount.Times * amount.Said).Sign < 0).ConvertAll(amount => (Times: -amount.Times, amount.Said));
        return left.Count == 0 || right.Count == 0 ? null : $"{Added(left, unit)} on one side, {Added(right, unit)} on the other";
    }

    /// <summary>The amounts with their sum behind them, where there are several.</summary>
    private static string Added(List<(Rational Times, Rational Said)> amounts, LengthUnit unit)
    {
        var text = "";
        var sum = Rational.Zero;
        foreach (var (times, said) in amounts.OrderBy(amount => (amount.Times * amount.Said).Sign > 0 ? 0 : 1))
        {
            var value = times * said;
            sum += value;
            var one = times.Abs() == Rational.One ? Text(said.Abs(), unit) : $"{Times(times.Abs())} x {Text(said.Abs(), unit)}";
            text += text.Length == 0 ? (value.Sign < 0 ? "-" : "") + one : $" {(value.Sign < 0 ? "-" : "+")} {one}";
        }

        return amounts.Count == 1 && amounts[0].Times.Abs() == Rational.One ? text : $"{text} = {Text(sum, unit)}";
    }

    private static string Times(Rational factor) => factor.ToString();

    private static string Text(Rational nanometres, LengthUnit unit) => LengthText.Write(new Position(nanometres), unit);
}

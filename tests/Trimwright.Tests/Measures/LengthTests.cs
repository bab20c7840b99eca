using CsCheck;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Measures;

public class LengthTests
{
    [Fact]
    public void An_inch_is_exactly_25_4_millimetres() => // international yard and pound agreement, 1959
        Assert.Equal(Length.FromMillimetres(254), Length.FromInches(10));

    [Fact]
    public void A_third_of_an_inch_is_refused_and_not_rounded()
    {
        Assert.Throws<ArgumentException>(() => Length.FromInches(1, 3));
        Assert.False(Length.TryFromNanometres(Rational.From(1, 2), out _));
        Assert.Equal(396_875, Length.FromInches(1, 64).Nanometres);
        Assert.Throws<ArgumentException>(() => Length.FromInches(1, 128));
    }

    [Fact]
    public void A_sum_that_leaves_64_bits_throws() =>
        Assert.Throws<OverflowException>(() => Length.FromNanometres(long.MaxValue) + Length.FromNanometres(1));

    [Theory]
    [InlineData(17, 16, 32)]
    [InlineData(16, 16, 16)]
    [InlineData(0, 16, 0)]
    [InlineData(-17, 16, -16)]
    [InlineData(1, 16, 16)]
    public void The_ceiling_is_the_least_multiple_that_is_not_shorter(long length, long increment, long ceiling) => Assert.Equal(
        Length.FromNanometres(ceiling), Length.FromNanometres(length).CeilingTo(Length.FromNanometres(increment)));

    [Fact]
    public void Adding_and_taking_away_undo_one_another() =>
        Gen.Select(Gen.Long[-1_000_000_000_000, 1_000_000_000_000], Gen.Long[-1_000_000_000_000, 1_000_000_000_000]).Hold((a, b) =>
        {
            var (first, second) = (Length.FromNanometres(a), Length.FromNanometres(b));
            return first + second - second == first && -(first - second) == second - first
                && Length.Max(first, second) + Length.Min(first, second) == first + second && (first < second) == (a < b);
        });

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(30, 1, 2)]
    [InlineData(90, 1, 1)]
    [InlineData(180, 0, 1)]
    [InlineData(270, -1, 1)]
    [InlineData(-90, -1, 1)]
    public void The_sine_is_within_a_millionth_of_a_millionth(int degrees, int numerator, int denominator)
    {
        var error = (new Angle(degrees).Sin() - Rational.From(numerator, denominator)).Abs();
        Assert.True(error <= Rational.From(1, 1_000_000_000_000), error.ToString());
    }

    [Fact]
    public void The_squares_of_sine_and_cosine_add_up_to_one() =>
        Gen.Int[-7200, 7200].Hold(tenths =>
        {
            var angle = new Angle(Rational.From(tenths, 10));
            return ((angle.Sin() * angle.Sin()) + (angle.Cos() * angle.Cos()) - 1).Abs() < Rational.From(3, 1_000_000_000_000);
        });
}

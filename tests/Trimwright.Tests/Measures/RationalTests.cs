using System.Numerics;
using CsCheck;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Measures;

/// <summary>Holds <see cref="Rational"/> against plain fractions of <see cref="BigInteger"/>, at the border of 64 bits above all.</summary>
public class RationalTests
{
    private static readonly Gen<BigInteger> Part = Gen.OneOf(
        Gen.Long[-20, 20].Select(v => (BigInteger)v),
        Gen.Long.Select(v => (BigInteger)v),
        Gen.Long[0, 3].Select(v => long.MaxValue - (BigInteger)v),
        Gen.Long[0, 3].Select(v => long.MinValue + (BigInteger)v),
        Gen.Long[-2, 2].Select(v => (BigInteger)int.MaxValue + v),
        Gen.Select(Gen.Int[0, 62], Gen.Int[-1, 1], (p, d) => BigInteger.Pow(2, p) + d),
        Gen.Select(Gen.Long, Gen.Long, (a, b) => (BigInteger)a * b),
        Gen.Long[1, 2000].Select(v => v * (BigInteger)1_587_500));

    private static readonly Gen<(BigInteger Over, BigInteger Under)> Parts =
        Gen.Select(Part, Gen.OneOf(Gen.Const(BigInteger.One), Part.Where(v => !v.IsZero)), (n, d) => (n, d));

    private static Rational Made((BigInteger Over, BigInteger Under) parts) => Rational.From(parts.Over, parts.Under);

    /// <summary>Fails unless a value is a fraction, in lowest terms, held the short way exactly when it fits.</summary>
    private static void Holds(BigInteger over, BigInteger under, Rational value)
    {
        var divisor = BigInteger.GreatestCommonDivisor(over, under) * under.Sign;
        Assert.Equal(over / divisor, value.Numerator);
        Assert.Equal(under / divisor, value.Denominator);
        var fits = BigInteger.Abs(value.Numerator) <= long.MaxValue && value.Denominator <= long.MaxValue;
        Assert.Equal(fits, value.IsSmall);
        Assert.Equal(value.Numerator.Sign, value.Sign);
        Assert.Equal(value.Numerator.IsZero, value.IsZero);
        Assert.Equal(value.Denominator.IsOne, value.IsWhole);
    }

    [Fact]
    public void Arithmetic_is_that_of_fractions() => Gen.Select(Parts, Parts).Hold(
        (a, b) =>
        {
            var (x, y) = (Made(a), Made(b));
            Holds(a.Over, a.Under, x);
            Holds((a.Over * b.Under) + (b.Over * a.Under), a.Under * b.Under, x + y);
            Holds((a.Over * b.Under) - (b.Over * a.Under), a.Under * b.Under, x - y);
            Holds(a.Over * b.Over, a.Under * b.Under, x * y);
            Holds(-a.Over, a.Under, -x);
            Holds(BigInteger.Abs(a.Over), BigInteger.Abs(a.Under), x.Abs());
            if (!b.Over.IsZero)
            {
                Holds(a.Over * b.Under, a.Under * b.Over, x / y);
            }
        },
        iter: 20_000);

    [Fact]
    public void Order_is_that_of_fractions() => Gen.Select(Parts, Parts).Hold(
        (a, b) =>
        {
            var (x, y) = (Made(a), Made(b));
            var order = (a.Over * b.Under * a.Under.Sign * b.Under.Sign).CompareTo(b.Over * a.Under * a.Under.Sign * b.Under.Sign);
            Assert.Equal(order, x.CompareTo(y));
            Assert.Equal(order < 0, x < y);
            Assert.Equal(order > 0, x > y);
            Assert.Equal(order <= 0, x <= y);
            Assert.Equal(order >= 0, x >= y);
            Assert.Equal(order == 0, x == y);
            Assert.Equal(order != 0, x != y);
            Assert.Equal(order <= 0 ? x : y, Rational.Min(x, y));
            Assert.Equal(order >= 0 ? x : y, Rational.Max(x, y));
            Assert.Equal(x, Rational.From(a.Over * 6, a.Under * 6));
            Assert.Equal(x.GetHashCode(), Rational.From(a.Over * 6, a.Under * 6).GetHashCode());
        },
        iter: 20_000);

    [Fact]
    public void Rounding_down_and_up_bracket_the_value() => Parts.Hold(
        a =>
        {
            var x = Made(a);
            var (low, high) = (x.Floor(), x.Ceiling());
            Assert.True(low * x.Denominator <= x.Numerator && x.Numerator < (low + 1) * x.Denominator);
            Assert.True((high - 1) * x.Denominator < x.Numerator && x.Numerator <= high * x.Denominator);
        },
        iter: 10_000);

    [Fact]
    public void Fractions_of_64_bits_are_made_alike_either_way() => Gen.Select(Part, Part).Hold(
        (a, b) =>
        {
            if (a >= long.MinValue && a <= long.MaxValue && b >= long.MinValue && b <= long.MaxValue && !b.IsZero)
            {
                Holds(a, b, Rational.From((long)a, (long)b));
                Holds(a, BigInteger.One, Rational.FromWhole((long)a));
            }
        },
        iter: 10_000);

    [Fact]
    public void A_value_that_outgrew_64_bits_comes_back_when_it_fits_again()
    {
        var huge = Rational.FromWhole(long.MaxValue) * long.MaxValue;
        Assert.False(huge.IsSmall);
        Assert.Equal(Rational.FromWhole(long.MaxValue), huge / long.MaxValue);
        Assert.True((huge / long.MaxValue).IsSmall);
    }

    [Fact]
    public void The_least_64_bit_number_keeps_its_sign_when_turned_twice()
    {
        var least = Rational.FromWhole(long.MinValue);
        Assert.Equal(-(BigInteger)long.MinValue, (-least).Numerator);
        Assert.Equal(least, -(-least));
        Assert.Equal(-1, least.Sign);
    }

    [Fact]
    public void Zero_is_the_default_and_has_one_form()
    {
        Assert.Equal(default, Rational.From(0, -7));
        Assert.Equal(default, Rational.FromWhole(5) - 5);
        Assert.Equal("0", default(Rational).ToString());
        Assert.Equal(BigInteger.One, default(Rational).Denominator);
    }

    [Fact]
    public void Dividing_by_zero_is_refused()
    {
        Assert.Throws<DivideByZeroException>(() => Rational.One / 0);
        Assert.Throws<DivideByZeroException>(() => Rational.From(1, 0));
        Assert.Throws<DivideByZeroException>(() => Rational.From(BigInteger.One, BigInteger.Zero));
    }

    [Fact]
    public void A_fraction_is_written_plainly()
    {
        Assert.Equal("-7/11", Rational.From(14, -22).ToString());
        Assert.Equal("3", Rational.From(9, 3).ToString());
    }
}

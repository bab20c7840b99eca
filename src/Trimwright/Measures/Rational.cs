using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Numerics;

namespace Trimwright.Measures;

/// <summary>
/// An exact fraction, always in lowest terms with a positive denominator. The <c>default</c> value is zero.
/// </summary>
/// <remarks>
/// Parts that fit 64 bits are held in two <see cref="long"/>s and computed with 128-bit intermediates; a value whose
/// reduced parts do not fit falls back to <see cref="BigInteger"/> for that value alone and returns to 64 bits as soon
/// as it fits again, so one number has one representation and equality compares parts.
/// </remarks>
public readonly struct Rational : IEquatable<Rational>, IComparable<Rational>, IComparable
{
    private readonly long _numerator;
    private readonly long _denominatorLessOne;
    private readonly BigParts? _big;

    private sealed record BigParts(BigInteger Numerator, BigInteger Denominator);

    private Rational(long numerator, long denominator)
    {
        _numerator = numerator;
        _denominatorLessOne = denominator - 1;
        _big = null;
    }

    private Rational(BigParts big)
    {
        _numerator = 0;
        _denominatorLessOne = 0;
        _big = big;
    }

    /// <summary>Zero.</summary>
    public static Rational Zero => default;

    /// <summary>One.</summary>
    public static Rational One => new(1, 1);

    /// <summary>The numerator in lowest terms; it carries the sign.</summary>
    public BigInteger Numerator => _big is null ? _numerator : _big.Numerator;

    /// <summary>The denominator in lowest terms; always positive.</summary>
    public BigInteger Denominator => _big is null ? Den : _big.Denominator;

    /// <summary>-1, 0 or 1.</summary>
    public int Sign => _big is null ? Math.Sign(_numerator) : _big.Numerator.Sign;

    /// <summary>Whether the value is zero.</summary>
    public bool IsZero => _big is null && _numerator == 0;

    /// <summary>Whether the value is a whole number.</summary>
    public bool IsWhole => _big is null ? _denominatorLessOne == 0 : _big.Denominator.IsOne;

    /// <summary>Whether both parts fit 64 bits, so that arithmetic takes the fast path.</summary>
    public bool IsSmall => _big is null;

    private long Den => _denominatorLessOne + 1;

    /// <summary>Makes a whole number.</summary>
    // The one whole number whose opposite does not fit 64 bits takes the long way, so that a sign can always be turned.
    public static Rational FromWhole(long value) => value == long.MinValue ? Pack(value, 1) : new(value, 1);

    /// <summary>Makes a fraction and brings it to lowest terms.</summary>
    /// <exception cref="DivideByZeroException"><paramref name="denominator"/> is zero.</exception>
    public static Rational From(long numerator, long denominator) =>
        denominator == 0 ? throw new DivideByZeroException("a fraction needs a denominator other than zero")
        : denominator == 1 ? FromWhole(numerator)
        : Reduce(numerator, denominator);

    /// <summary>Makes a fraction of any size and brings it to lowest terms.</summary>
    /// <exception cref="DivideByZeroException"><paramref name="denominator"/> is zero.</exception>
    public static Rational From(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.IsZero)
        {
            throw new DivideByZeroException("a fraction needs a denominator other than zero");
        }

        var divisor = BigInteger.GreatestCommonDivisor(numerator, denominator);
        if (denominator.Sign < 0)
        {
            divisor = -divisor;
        }

        return Pack(numerator / divisor, denominator / divisor);
    }

    private static Rational Pack(BigInteger numerator, BigInteger denominator) =>
        numerator >= -long.MaxValue && numerator <= long.MaxValue && denominator <= long.MaxValue
            ? new((long)numerator, (long)denominator)
            : new(new BigParts(numerator, denominator));

    private static Rational Reduce(Int128 numerator, Int128 denominator)
    {
        if (denominator < 0)
        {
            numerator = -numerator;
            denominator = -denominator;
        }

        var divisor = Gcd(numerator < 0 ? -numerator : numerator, denominator);
        if (divisor > 1)
        {
            numerator /= divisor;
            denominator /= divisor;
        }

        return numerator >= -long.MaxValue && numerator <= long.MaxValue && denominator <= long.MaxValue
            ? new((long)numerator, (long)denominator)
            : Pack((BigInteger)numerator, (BigInteger)denominator);
    }

    private static Int128 Gcd(Int128 a, Int128 b)
    {
        while (b != 0)
        {
            if (a <= long.MaxValue && b <= long.MaxValue)
            {
                return Gcd64((long)a, (long)b);
            }

            (a, b) = (b, a % b);
        }

        return a;
    }

    // Euclid, not the binary form: one of the two is nearly always a small denominator, and then two divisions end it. A division of
    // 32 bits takes less than half the time of one of 64.
    private static long Gcd64(long a, long b)
    {
        var (x, y) = ((ulong)a, (ulong)b);
        while (y != 0)
        {
            if ((x | y) <= uint.MaxValue)
            {
                return Gcd32((uint)x, (uint)y);
            }

            (x, y) = (y, x % y);
        }

        return (long)x;
    }

    private static long Gcd32(uint x, uint y)
    {
        while (y != 0)
        {
            (x, y) = (y, x % y);
        }

        return x;
    }

    private static long Divide(long a, long b) => b == 1 ? a : a / b;

    private static bool Times(long a, long b, out long product)
    {
        if (unchecked((int)a) == a && unchecked((int)b) == b)
        {
            product = a * b;
            return true;
        }

        var high = Math.BigMul(a, b, out product);
        return high == product >> 63 && product != long.MinValue;
    }

    private static bool Plus(long a, long b, out long sum)
    {
        sum = unchecked(a + b);
        return ((a ^ sum) & (b ^ sum)) >= 0 && sum != long.MinValue;
    }

    /// <summary>The sum.</summary>
    public static Rational operator +(Rational a, Rational b)
    {
        if (a._big is null && b._big is null)
        {
            if ((a._denominatorLessOne | b._denominatorLessOne) == 0 && Plus(a._numerator, b._numerator, out var whole))
            {
                return new(whole, 1);
            }

            return AddFractions(a, b);
        }

        return From((a.Numerator * b.Denominator) + (b.Numerator * a.Denominator), a.Denominator * b.Denominator);
    }

    // Knuth, The Art of Computer Programming vol. 2, 4.5.1: with g = gcd of the denominators only a factor of g can
    // cancel, so both greatest common divisors are taken of small numbers.
    private static Rational AddFractions(Rational a, Rational b)
    {
        var (aDen, bDen) = (a.Den, b.Den);
        var divisor = aDen == bDen ? aDen : aDen == 1 || bDen == 1 ? 1 : Gcd64(aDen, bDen);
        var (left, right) = aDen == bDen ? (1, 1) : (Divide(aDen, divisor), Divide(bDen, divisor));
        if (Times(a._numerator, right, out var x) && Times(b._numerator, left, out var y) && Plus(x, y, out var sum))
        {
            var common = divisor == 1 ? 1 : Gcd64(Math.Abs(sum), divisor);
            if (Times(left, Divide(bDen, common), out var denominator))
            {
                return new(Divide(sum, common), denominator);
            }
        }

        // Products of two 63-bit numbers take at most 126 bits, so the sum of two still fits a signed Int128.
        return Reduce(((Int128)a._numerator * b.Den) + ((Int128)b._numerator * a.Den), (Int128)a.Den * b.Den);
    }

    /// <summary>The difference.</summary>
    public static Rational operator -(Rational a, Rational b) => a + -b;

    /// <summary>The value with the other sign.</summary>
    public static Rational operator -(Rational a) =>
        a._big is null ? new(-a._numerator, a.Den) : Pack(-a._big.Numerator, a._big.Denominator);

    /// <summary>The product.</summary>
    public static Rational operator *(Rational a, Rational b)
    {
        if (a._big is null && b._big is null)
        {
            if ((a._denominatorLessOne | b._denominatorLessOne) == 0 && Times(a._numerator, b._numerator, out var whole))
            {
                return new(whole, 1);
            }

            return MultiplyFractions(a._numerator, a.Den, b._numerator, b.Den);
        }

        return From(a.Numerator * b.Numerator, a.Denominator * b.Denominator);
    }

    // Reduced crosswise first (Knuth, as above): the products are then in lowest terms.
    private static Rational MultiplyFractions(long numerator1, long denominator1, long numerator2, long denominator2)
    {
        if (numerator1 == 0 || numerator2 == 0)
        {
            return default;
        }

        var first = denominator2 == 1 ? 1 : Gcd64(Math.Abs(numerator1), denominator2);
        var second = denominator1 == 1 ? 1 : Gcd64(Math.Abs(numerator2), denominator1);
        var (left, right) = (Divide(numerator1, first), Divide(numerator2, second));
        var (below, beneath) = (Divide(denominator1, second), Divide(denominator2, first));
        return Times(left, right, out var numerator) && Times(below, beneath, out var denominator)
            ? new(numerator, denominator)
            : Pack((BigInteger)left * right, (BigInteger)below * beneath);
    }

    /// <summary>The quotient.</summary>
    /// <exception cref="DivideByZeroException"><paramref name="b"/> is zero.</exception>
    public static Rational operator /(Rational a, Rational b)
    {
        if (b.IsZero)
        {
            throw new DivideByZeroException();
        }

        if (a._big is not null || b._big is not null)
        {
            return From(a.Numerator * b.Denominator, a.Denominator * b.Numerator);
        }

        return b._numerator > 0
            ? MultiplyFractions(a._numerator, a.Den, b.Den, b._numerator)
            : MultiplyFractions(-a._numerator, a.Den, b.Den, -b._numerator);
    }

    /// <summary>Whether both are the same number, exactly.</summary>
    public static bool operator ==(Rational a, Rational b) => a.Equals(b);

    /// <summary>Whether the two differ.</summary>
    public static bool operator !=(Rational a, Rational b) => !a.Equals(b);

    /// <summary>Whether the first is less.</summary>
    public static bool operator <(Rational a, Rational b) => a.CompareTo(b) < 0;

    /// <summary>Whether the first is greater.</summary>
    public static bool operator >(Rational a, Rational b) => a.CompareTo(b) > 0;

    /// <summary>Whether the first is less or equal.</summary>
    public static bool operator <=(Rational a, Rational b) => a.CompareTo(b) <= 0;

    /// <summary>Whether the first is greater or equal.</summary>
    public static bool operator >=(Rational a, Rational b) => a.CompareTo(b) >= 0;

    /// <summary>A whole number is a fraction.</summary>
    public static implicit operator Rational(long value) => FromWhole(value);

    /// <summary>The value without its sign.</summary>
    public Rational Abs() => Sign < 0 ? -this : this;

    /// <summary>The greatest whole number that is not greater (towards minus infinity).</summary>
    public BigInteger Floor()
    {
        var quotient = BigInteger.DivRem(Numerator, Denominator, out var remainder);
        return remainder.Sign < 0 ? quotient - 1 : quotient;
    }

    /// <summary>The least whole number that is not less (towards plus infinity).</summary>
    public BigInteger Ceiling() => -(-this).Floor();

    /// <summary>The lesser of the two.</summary>
    public static Rational Min(Rational a, Rational b) => a <= b ? a : b;

    /// <summary>The greater of the two.</summary>
    public static Rational Max(Rational a, Rational b) => a >= b ? a : b;

    /// <inheritdoc/>
    public int CompareTo(Rational other)
    {
        if (_big is null && other._big is null)
        {
            return _denominatorLessOne == other._denominatorLessOne || (_numerator ^ other._numerator) < 0
                ? _numerator.CompareTo(other._numerator)
                : ((Int128)_numerator * other.Den).CompareTo((Int128)other._numerator * Den);
        }

        return (Numerator * other.Denominator).CompareTo(other.Numerator * Denominator);
    }

    /// <inheritdoc/>
    public int CompareTo(object? obj) => obj is Rational other
        ? CompareTo(other)
        : throw new ArgumentException("not a fraction", nameof(obj));

    /// <inheritdoc/>
    public bool Equals(Rational other) =>
        _numerator == other._numerator && _denominatorLessOne == other._denominatorLessOne && Equals(_big, other._big);

    /// <inheritdoc/>
    public override bool Equals([NotNullWhen(true)] object? obj) => obj is Rational other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(_numerator, _denominatorLessOne, _big);

    /// <summary>The plain fraction, such as <c>-7/11</c> or <c>3</c>.</summary>
    public override string ToString() => IsWhole
        ? Numerator.ToString(CultureInfo.InvariantCulture)
        : string.Create(CultureInfo.InvariantCulture, $"{Numerator}/{Denominator}");
}

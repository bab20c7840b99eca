using System.Collections.Concurrent;
using System.Globalization;
using CsCheck;
using Xunit;

namespace Trimwright.Tests;

/// <summary>
/// Checks of many generated samples, the same ones on every run: a build is not a lottery. The library that generates them takes a seed for
/// its first sample only, so here each sample has a stream of its own.
/// </summary>
/// <remarks>
/// To look for more, run the tests with <c>TRIMWRIGHT_SAMPLES</c> set to any other whole number. What is found then becomes a test by itself.
/// </remarks>
internal static class Samples
{
    private const string Variable = "TRIMWRIGHT_SAMPLES";
    private const ulong Usual = 20_260_425;
    private const int UsualCount = 100;

    /// <summary>Which samples are taken.</summary>
    private static readonly ulong Seed = Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } text ? ulong.Parse(text, CultureInfo.InvariantCulture) : Usual;

    /// <summary>Some samples, in order.</summary>
    public static IEnumerable<T> Take<T>(this Gen<T> gen, int count) => Enumerable.Range(0, count).Select(i => gen.Generate(new PCG((uint)i, Seed), null, out _));

    /// <summary>Checks samples, on all cores; the first that fails is made as small as may be and told.</summary>
    /// <param name="gen">What makes them.</param>
    /// <param name="check">Throws when one is not as it should be.</param>
    /// <param name="iter">How many.</param>
    /// <param name="print">How one is told.</param>
    public static void Hold<T>(this Gen<T> gen, Action<T> check, int iter = UsualCount, Func<T, string>? print = null)
    {
        var failures = new ConcurrentDictionary<long, Exception>();
        var loop = Parallel.For(0L, iter, (i, state) =>
        {
            try
            {
                check(gen.Generate(new PCG((uint)i, Seed), null, out _));
            }
            catch (Exception failure)
            {
                failures[i] = failure;
                state.Break();
            }
        });
        if (loop.LowestBreakIteration is not { } first)
        {
            return;
        }

        // Given the state that the sample came from, the library meets the failure again and looks for a smaller one.
        gen.Sample(check, seed: new PCG((uint)first, Seed).ToString(), iter: UsualCount, print: print);
        throw new InvalidOperationException($"sample {first} failed, and did not when it was checked again: the check does not depend on its sample alone", failures[first]);
    }

    /// <inheritdoc cref="Hold{T}(Gen{T}, Action{T}, int, Func{T, string})"/>
    public static void Hold<T1, T2>(this Gen<(T1 First, T2 Second)> gen, Action<T1, T2> check, int iter = UsualCount, Func<(T1 First, T2 Second), string>? print = null) =>
        gen.Hold(s => check(s.First, s.Second), iter, print);

    /// <inheritdoc cref="Hold{T}(Gen{T}, Action{T}, int, Func{T, string})"/>
    public static void Hold<T1, T2, T3>(
        this Gen<(T1 First, T2 Second, T3 Third)> gen, Action<T1, T2, T3> check, int iter = UsualCount, Func<(T1 First, T2 Second, T3 Third), string>? print = null) =>
        gen.Hold(s => check(s.First, s.Second, s.Third), iter, print);

    /// <inheritdoc cref="Hold{T}(Gen{T}, Action{T}, int, Func{T, string})"/>
    public static void Hold<T1, T2, T3, T4>(
        this Gen<(T1 First, T2 Second, T3 Third, T4 Fourth)> gen,
        Action<T1, T2, T3, T4> check,
        int iter = UsualCount,
        Func<(T1 First, T2 Second, T3 Third, T4 Fourth), string>? print = null) =>
        gen.Hold(s => check(s.First, s.Second, s.Third, s.Fourth), iter, print);

    /// <summary>Checks samples by a statement that must be true of each.</summary>
    public static void Hold<T>(this Gen<T> gen, Func<T, bool> check, int iter = UsualCount, Func<T, string>? print = null) =>
        gen.Hold(s => { Assert.True(check(s)); }, iter, print);

    /// <inheritdoc cref="Hold{T}(Gen{T}, Func{T, bool}, int, Func{T, string})"/>
    public static void Hold<T1, T2>(this Gen<(T1 First, T2 Second)> gen, Func<T1, T2, bool> check, int iter = UsualCount) =>
        gen.Hold(s => { Assert.True(check(s.First, s.Second)); }, iter);

    /// <inheritdoc cref="Hold{T}(Gen{T}, Func{T, bool}, int, Func{T, string})"/>
    public static void Hold<T1, T2, T3>(this Gen<(T1 First, T2 Second, T3 Third)> gen, Func<T1, T2, T3, bool> check, int iter = UsualCount) =>
        gen.Hold(s => { Assert.True(check(s.First, s.Second, s.Third)); }, iter);

    /// <inheritdoc cref="Hold{T}(Gen{T}, Func{T, bool}, int, Func{T, string})"/>
    public static void Hold<T1, T2, T3, T4>(this Gen<(T1 First, T2 Second, T3 Third, T4 Fourth)> gen, Func<T1, T2, T3, T4, bool> check, int iter = UsualCount) =>
        gen.Hold(s => { Assert.True(check(s.First, s.Second, s.Third, s.Fourth)); }, iter);
}

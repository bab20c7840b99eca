namespace Trimwright.Cutting;

/// <summary>
/// A small generator of our own, so that the same seed gives the same plan everywhere: SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
/// </summary>
internal sealed class PlanRandom(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A number from 0 to <paramref name="below"/> - 1.</summary>
    public int Next(int below) => (int)(Next() % (ulong)below);

    private ulong Next()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            var z = _state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}

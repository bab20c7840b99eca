namespace Trimwright.Balance;

/// <summary>What a face is weighed against.</summary>
public enum GroundTone
{
    /// <summary>The ground is light: the darker a place, the heavier.</summary>
    Light,

    /// <summary>The ground is dark: the lighter a place, the heavier.</summary>
    Dark,
}

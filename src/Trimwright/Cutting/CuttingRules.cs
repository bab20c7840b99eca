using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>What the tool and the hand can do. Every cut runs from edge to edge of what lies under the blade.</summary>
public sealed record CuttingRules
{
    /// <summary>The width of paper a cut destroys. None for a blade; some for a saw.</summary>
    public Length Kerf { get; init; }

    /// <summary>
    /// No cut may be shorter than this: a strip that is narrower cannot be held to be cut across, so the block is cut to length first and
    /// sliced afterwards. Zero for no limit.
    /// </summary>
    public Length LeastCut { get; init; }

    /// <summary>
    /// No cut may shave off waste thinner than this, the kerf included; cutting off nothing is no cut. Zero for no limit. Trueing cuts are
    /// left out of it: they are asked for.
    /// </summary>
    public Length LeastTrim { get; init; }

    /// <summary>The width of the least leftover worth keeping; a leftover counts either way round. At least one of the two is positive.</summary>
    public Length OffcutWidth { get; init; } = Length.FromInches(1);

    /// <summary>The height of the least leftover worth keeping.</summary>
    public Length OffcutHeight { get; init; } = Length.FromInches(1);

    /// <summary>How many equal sheets can be cut at once; at least 1.</summary>
    public int StackLimit { get; init; } = 1;
}

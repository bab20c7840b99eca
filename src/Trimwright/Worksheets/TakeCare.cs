using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>The cautions that go with a worksheet, one or two sentences each, in our own words.</summary>
/// <remarks>
/// Blades and trimmers: guidance on cutting tools for art rooms and for arm trimmers in schools. Glue and sprays: standards for child
/// care and guidance on art materials (ventilate, keep sprays away from children, liquids and pastes before sprays and powders).
/// </remarks>
public static class TakeCare
{
    /// <summary>The cautions.</summary>
    public static IReadOnlyList<string> Lines { get; } =
    [
        .. TrimSheet.Cautions,
        "Cut with a knife on a mat larger than the cut, along a metal ruler, with the holding hand out of the blade's path; cap it as soon as you put it down.",
        "An arm trimmer stands on a firm table, takes few sheets at a time and is not carried by its arm. It is a tool for grown-ups.",
        "Choose glue that is liquid, gel or paste before glue that is sprayed. If you must spray: fresh air, no flame, no children in the room, and read what the tin says.",
        "With children at the table, use materials that are marked as safe for their age.",
        "Foam and layers make a card thick and stiff, and that can change how it travels and what it costs. Your own post office and your local rules decide.",
    ];
}

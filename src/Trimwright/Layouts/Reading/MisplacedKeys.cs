using Trimwright.Layouts.Writing;

namespace Trimwright.Layouts.Reading;

/// <summary>Keys that stand a group too high or too low: of a picture or a place on the piece itself, or of a piece in its picture or its place.</summary>
internal static class MisplacedKeys
{
    /// <summary>Where a key belongs that the group does not have, as a remedy; null if it belongs nowhere near.</summary>
    /// <param name="member">The key with its value.</param>
    /// <param name="group">The group that it stands in.</param>
    /// <param name="keys">The keys that the group may have.</param>
    public static string? Remedy(SyntaxMember member, SyntaxObject group, IReadOnlyList<string> keys)
    {
        if (keys == LayoutKeys.Piece && member.Key != "file" && LayoutKeys.Picture.Contains(member.Key))
        {
            var file = group.Members.FirstOrDefault(other => other.Key == "picture")?.Value switch
            {
                SyntaxText text => text.Text,
                SyntaxObject picture when picture.Members.FirstOrDefault(other => other.Key == "file")?.Value is SyntaxText text => text.Text,
                _ => "robin.png",
            };
            return $"it belongs in the picture: write `\"picture\": {{ \"file\": {SourceText.Quoted(file)}, {Written(member)} }}`";
        }

        if ((keys == LayoutKeys.Piece || keys == LayoutKeys.Row) && LayoutKeys.Place.Contains(member.Key))
        {
            // A group must not have a key twice.
            return group.Members.Any(other => other.Key == "place")
                ? $"it belongs in the place: write `{Written(member)}` in the `place` group"
                : $"it belongs in the place: write `\"place\": {{ {Written(member)} }}`";
        }

        if ((keys == LayoutKeys.Picture || keys == LayoutKeys.Place) && LayoutKeys.Piece.Contains(member.Key))
        {
            return $"it belongs to the piece itself: write it behind the `{(keys == LayoutKeys.Place ? "place" : "picture")}` group";
        }

        return null;
    }

    private static string Written(SyntaxMember member) => $"{SourceText.Quoted(member.Key)}: {member.Value switch
    {
        SyntaxText text => SourceText.Quoted(text.Text),
        SyntaxNumber number => number.Raw,
        SyntaxFlag flag => flag.IsTrue ? "true" : "false",
        _ => "...",
    }}";
}

namespace Trimwright.Diagnostics;

/// <summary>A stretch of one line of a file.</summary>
/// <param name="File">The file as the user named it.</param>
/// <param name="Line">The line, from 1; 0 means the file as a whole.</param>
/// <param name="Column">The column in characters (UTF-16 code units), from 1.</param>
/// <param name="Length">How many characters; at least 1 where a line is named.</param>
public sealed record SourcePlace(string File, int Line, int Column, int Length)
{
    /// <summary>The file as a whole.</summary>
    public static SourcePlace WholeFile(string file) => new(file, 0, 0, 0);

    /// <summary>Orders places by file, then line, then column, then length.</summary>
    public static int Compare(SourcePlace a, SourcePlace b)
    {
        var byFile = string.CompareOrdinal(a.File, b.File);
        return byFile != 0 ? byFile
            : a.Line != b.Line ? a.Line.CompareTo(b.Line)
            : a.Column != b.Column ? a.Column.CompareTo(b.Column)
            : a.Length.CompareTo(b.Length);
    }

    /// <summary><c>file:line:column</c>, as editors and compilers write it.</summary>
    public override string ToString() => Line == 0 ? File : $"{File}:{Line}:{Column}";
}

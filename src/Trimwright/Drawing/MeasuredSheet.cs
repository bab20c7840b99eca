namespace Trimwright.Drawing;

/// <summary>One of the sheets that measure a card.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Shows">What it shows, in words; empty where one sheet shows all.</param>
/// <param name="Drawing">The drawing.</param>
public sealed record MeasuredSheet(int Number, string Shows, DrawingList Drawing);

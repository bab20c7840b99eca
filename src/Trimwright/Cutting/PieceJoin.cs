namespace Trimwright.Cutting;

/// <summary>A wanted piece may be made of other pieces instead, each of them cut by itself.</summary>
/// <param name="Piece">The id of the piece that may be joined.</param>
/// <param name="Parts">The ids of what it is joined from, at least two; one that is needed twice stands there twice. None is joined itself.</param>
public sealed record PieceJoin(string Piece, IReadOnlyList<string> Parts);

/// <summary>How many of a piece a plan joins from others.</summary>
/// <param name="Join">The piece and its parts.</param>
/// <param name="Count">How many; at least 1.</param>
public sealed record JoinedPieces(PieceJoin Join, long Count);

// Tells what dies with its open string when a piece is transposed.
using ChordLang.Arrangement.Transposing;

namespace ChordLang.Checks.Hand;

/// <summary>What dies with its open string.</summary>
public sealed class OpenStringLost() : LossCheck("hand-open-string-lost", "An open string that a transposition takes away", Obstacle.OpenString);

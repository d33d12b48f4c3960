// Tells what would leave the neck when a piece is transposed.
using ChordLang.Arrangement.Transposing;

namespace ChordLang.Checks.Hand;

/// <summary>What would leave the neck.</summary>
public sealed class PastNeckEnd() : LossCheck("hand-past-neck-end", "A grip that a transposition pushes off the neck", Obstacle.NeckEnd);

// From over the neck the thumb reaches two strings.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class ThumbOutOfReach() : WrittenFingerCheck("hand-thumb-out-of-reach", "A thumb where it does not reach", FingeringFaultKind.ThumbOutOfReach);

// Where fingers are written, one that is forgotten leaves a string that nobody holds.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class FingerMissing() : WrittenFingerCheck("hand-finger-missing", "A fretted string without a finger", FingeringFaultKind.FrettedWithoutFinger);

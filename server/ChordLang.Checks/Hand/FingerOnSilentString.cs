// A finger that holds an open or silent string shows that the fingers are written one string off.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class FingerOnSilentString() : WrittenFingerCheck("hand-finger-on-silent-string", "A finger on a string that is open or not played", FingeringFaultKind.FingerOnOpenOrMutedString);

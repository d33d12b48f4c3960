// The grip can be held, but not with the fingers that are written.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class FingersTooFar() : WrittenFingerCheck("hand-fingers-too-far", "Written fingers that lie too far apart", FingeringFaultKind.StretchTooFar);

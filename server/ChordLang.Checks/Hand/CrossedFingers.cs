// A higher finger written behind a lower one is a slip of the pen.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class CrossedFingers() : WrittenFingerCheck("hand-crossed-fingers", "Fingers that are crossed", FingeringFaultKind.CrossedFingers);

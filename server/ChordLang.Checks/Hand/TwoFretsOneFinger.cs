// A finger lies on one fret at a time.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class TwoFretsOneFinger() : WrittenFingerCheck("hand-two-frets-one-finger", "One finger on two frets", FingeringFaultKind.OneFingerOnTwoFrets);

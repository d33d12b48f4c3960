// A finger across the strings stops all of them, the lower notes too.
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>See its page.</summary>
public sealed class BarreOverLowerNote() : WrittenFingerCheck("hand-barre-over-lower-note", "A barre that stops a lower note", FingeringFaultKind.BarreOverLowerNote);

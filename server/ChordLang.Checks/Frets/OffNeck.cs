// Catches a fret that is not there.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports a fret beyond the last one of the neck, counted from the capo.</summary>
public sealed class OffNeck() : ReportedCheck(TroubleCodes.OffNeck, Severity.Error);

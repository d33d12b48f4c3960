// Catches fingers that are written for another number of strings or for strings that are silent.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports fingers that do not go with the frets they are written for.</summary>
public sealed class FingerCount() : ReportedCheck(TroubleCodes.Fingers, Severity.Warning);

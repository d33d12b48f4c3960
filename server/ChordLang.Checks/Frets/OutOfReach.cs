// Catches a pitch that lies below or above all strings.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports a pitch that no string, or not the string named, can sound.</summary>
public sealed class OutOfReach() : ReportedCheck(TroubleCodes.OutOfReach, Severity.Error);

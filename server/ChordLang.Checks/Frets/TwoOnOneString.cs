// Catches two notes that cannot sound at once because they share a string.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports notes of one event, or struck at one moment in several rows, on the same string.</summary>
public sealed class TwoOnOneString() : ReportedCheck(TroubleCodes.TwoOnOneString, Severity.Error);

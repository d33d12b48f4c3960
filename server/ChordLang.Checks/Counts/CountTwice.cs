// Catches two events on one count of one voice.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports a count that stands twice in one row.</summary>
public sealed class CountTwice() : ReportedCheck(TroubleCodes.Twice, Severity.Error);

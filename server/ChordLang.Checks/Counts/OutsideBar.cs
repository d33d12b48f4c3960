// Catches a note on a count that its bar does not have.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports a count before or behind its bar.</summary>
public sealed class OutsideBar() : ReportedCheck(TroubleCodes.OutsideBar, Severity.Error);

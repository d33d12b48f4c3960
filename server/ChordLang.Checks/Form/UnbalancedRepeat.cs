// Catches a repeat that nobody knows where to begin or to end.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a repeat, ending or end without its partner.</summary>
public sealed class UnbalancedRepeat() : ReportedCheck(TroubleCodes.UnbalancedRepeat, Severity.Error);

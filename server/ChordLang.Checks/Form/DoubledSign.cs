// Catches two goals for one leap.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a sign of the form that stands twice.</summary>
public sealed class DoubledSign() : ReportedCheck(TroubleCodes.DoubledSign, Severity.Error);

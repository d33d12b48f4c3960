// Catches two values for one thing, of which only the later holds.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a setting that is written twice for the same bar.</summary>
public sealed class DoubledSetting() : ReportedCheck(TroubleCodes.DoubledSetting, Severity.Warning);

// Catches a setting that the instrument contradicts.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a capo, a reach or a position that the neck does not have.</summary>
public sealed class ValueOutOfRange() : ReportedCheck(TroubleCodes.ValueOutOfRange, Severity.Error);

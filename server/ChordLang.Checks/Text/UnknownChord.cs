// Points at the character where a chord symbol stops to make sense.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a chord symbol that is no symbol players know.</summary>
public sealed class UnknownChord() : ReportedCheck(TroubleCodes.UnknownChord, Severity.Error);

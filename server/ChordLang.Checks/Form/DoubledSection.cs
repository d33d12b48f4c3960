// Catches two parts of one name, for a name should lead to one place.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a section whose name stands before.</summary>
public sealed class DoubledSection() : ReportedCheck(TroubleCodes.DoubledSection, Severity.Warning);

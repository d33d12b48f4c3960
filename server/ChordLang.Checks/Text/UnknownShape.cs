// Catches a shape that is called by a name nobody gave.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports the name of a shape that neither this file nor a used one defines.</summary>
public sealed class UnknownShape() : ReportedCheck(TroubleCodes.UnknownShape, Severity.Error);

// Catches two voicings under one name, for a row can mean only one of them.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a shape whose name was given before.</summary>
public sealed class DoubledShape() : ReportedCheck(TroubleCodes.DoubledShape, Severity.Error);

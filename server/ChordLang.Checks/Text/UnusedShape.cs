// Points at a shape that nobody plays, for the name in a row may be the slip.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a shape of a piece that no row of it calls for.</summary>
public sealed class UnusedShape() : ReportedCheck(TroubleCodes.UnusedShape, Severity.Hint);

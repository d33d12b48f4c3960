// Catches a row of which nobody knows to which bar it belongs.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports played rows under a chart line that holds several bars.</summary>
public sealed class RowsUnderSeveralBars() : ReportedCheck(TroubleCodes.RowsUnderSeveralBars, Severity.Error);

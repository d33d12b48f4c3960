// Catches a row that no bar stands above.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a row before the first chart line.</summary>
public sealed class RowWithoutBar() : ReportedCheck(TroubleCodes.RowWithoutBar, Severity.Error);

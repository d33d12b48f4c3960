// Catches a sign for a whole bar that shares its bar with something else.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports <c>%</c> beside chord symbols or counts in one bar.</summary>
public sealed class BarSignNotAlone() : ReportedCheck(TroubleCodes.BarSignNotAlone, Severity.Error);

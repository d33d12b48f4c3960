// Stops a form that no evening is long enough for.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports repeats that unfold to more bars than can be followed.</summary>
public sealed class TooLong() : ReportedCheck(TroubleCodes.TooLong, Severity.Error);

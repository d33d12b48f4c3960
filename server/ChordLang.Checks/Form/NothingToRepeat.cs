// Catches a bar that is to repeat something when nothing stands before it.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports <c>%</c> in a bar that has none before it.</summary>
public sealed class NothingToRepeat() : ReportedCheck(TroubleCodes.NothingToRepeat, Severity.Error);

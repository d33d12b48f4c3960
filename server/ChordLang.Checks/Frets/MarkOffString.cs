// Catches a mark for a string that is silent.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports a mark such as <c>ring@1</c> on a string that the sound does not play.</summary>
public sealed class MarkOffString() : ReportedCheck(TroubleCodes.MarkOffString, Severity.Warning);

// Catches a tie or a repetition with nothing to hold on to.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports <c>tied</c>, <c>again</c>, <c>slide</c>, <c>hammer</c> or <c>pull</c> with no sound before it in its voice.</summary>
public sealed class NothingBefore() : ReportedCheck(TroubleCodes.NothingBefore, Severity.Error);

// Catches bars that seem to belong to a part which is only named, not written.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports bars that follow <c>section NAME again</c> without a section of their own.</summary>
public sealed class BarsUnderAgain() : ReportedCheck(TroubleCodes.BarsUnderAgain, Severity.Warning);

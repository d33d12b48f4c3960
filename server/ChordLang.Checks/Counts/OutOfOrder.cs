// Catches counts that go back in time.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports a count that lies before the one written in front of it.</summary>
public sealed class OutOfOrder() : ReportedCheck(TroubleCodes.OutOfOrder, Severity.Error);

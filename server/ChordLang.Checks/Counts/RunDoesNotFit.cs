// Catches a run with a note forgotten or a note too many.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports a run whose sounds cannot lie evenly between its two counts.</summary>
public sealed class RunDoesNotFit() : ReportedCheck(TroubleCodes.RunDoesNotFit, Severity.Error);

// Asks on which count each chord comes where nobody can tell.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Counts;

/// <summary>Reports chords without counts that cannot share their bar evenly.</summary>
public sealed class ChordSharing() : ReportedCheck(TroubleCodes.Sharing, Severity.Error);

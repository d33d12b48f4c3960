// Catches a chord of which no string is played.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports frets that are all <c>x</c>.</summary>
public sealed class NothingPlayed() : ReportedCheck(TroubleCodes.NothingPlayed, Severity.Warning);

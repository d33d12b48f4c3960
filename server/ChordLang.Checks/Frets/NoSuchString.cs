// Catches a string that is not there.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports a string number greater than the number of strings.</summary>
public sealed class NoSuchString() : ReportedCheck(TroubleCodes.NoSuchString, Severity.Error);

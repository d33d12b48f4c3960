// Holds two descriptions of one sound against each other.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports an equal sign whose two sides are different sounds.</summary>
public sealed class SidesDiffer() : ReportedCheck(TroubleCodes.SidesDiffer, Severity.Error);

// Catches frets that are written for another instrument, or with one string forgotten.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports frets whose number of slots is not the number of strings.</summary>
public sealed class SlotCount() : ReportedCheck(TroubleCodes.Slots, Severity.Error);

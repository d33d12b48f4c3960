// Catches a pickup in the middle of a piece or on a count that its bar does not have.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a pickup that does not come before the first bar, or whose count the bar does not have.</summary>
public sealed class MisplacedPickup() : ReportedCheck(TroubleCodes.MisplacedPickup, Severity.Error);

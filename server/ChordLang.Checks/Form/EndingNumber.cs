// Catches endings that leave one time through without a bar to play.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports an ending whose number is doubled, missing or greater than the number of times.</summary>
public sealed class EndingNumber() : ReportedCheck(TroubleCodes.EndingNumber, Severity.Error);

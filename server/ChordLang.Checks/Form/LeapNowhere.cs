// Catches a leap that lands nowhere, and a sign that nobody leaps to.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports a leap without its goal, or a sign without a leap to it.</summary>
public sealed class LeapNowhere() : ReportedCheck(TroubleCodes.LeapNowhere, Severity.Error);

// Catches a part that is to be played again and was never written.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports <c>section NAME again</c> without a section of that name before it.</summary>
public sealed class UnknownSection() : ReportedCheck(TroubleCodes.UnknownSection, Severity.Error);

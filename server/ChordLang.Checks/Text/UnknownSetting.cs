// Catches a first word that opens no line, before the whole line is lost.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a line whose first word is not known.</summary>
public sealed class UnknownSetting() : ReportedCheck(SyntaxCodes.UnknownSetting, Severity.Error);

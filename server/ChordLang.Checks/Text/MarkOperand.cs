// Catches a mark that needs one more word to mean something.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a mark without the count, note, finger or name that it takes.</summary>
public sealed class MarkOperand() : ReportedCheck(SyntaxCodes.MarkOperand, Severity.Error);

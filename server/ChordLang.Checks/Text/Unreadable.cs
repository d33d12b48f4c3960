// Says what of a line could not be read, so that nothing is lost in silence.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a part of a line that means nothing in the notation.</summary>
public sealed class Unreadable() : ReportedCheck(SyntaxCodes.Unreadable, Severity.Error);

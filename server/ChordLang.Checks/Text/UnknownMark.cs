// Catches a word behind a sound that asks for something and is not understood.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a word in the place of a mark that is none.</summary>
public sealed class UnknownMark() : ReportedCheck(SyntaxCodes.UnknownMark, Severity.Error);

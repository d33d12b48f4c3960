// Catches a count that nobody can count, for the note on it would be lost.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports something that stands in the place of a count and is none.</summary>
public sealed class BadCount() : ReportedCheck(SyntaxCodes.BadCount, Severity.Error);

// Catches a count on which nothing is said to happen.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a count without a sound, a row without events, or an equal sign with one side.</summary>
public sealed class MissingSound() : ReportedCheck(SyntaxCodes.MissingSound, Severity.Error);

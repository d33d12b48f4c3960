// Catches a sound that no count stands in front of, for nobody knows when it is played.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a sound without a count.</summary>
public sealed class MissingCount() : ReportedCheck(SyntaxCodes.MissingCount, Severity.Error);

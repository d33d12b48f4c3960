// Sends a chord symbol to the line where names of chords stand.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a chord symbol in the place of a sound.</summary>
public sealed class ChordInRow() : ReportedCheck(SyntaxCodes.ChordInRow, Severity.Error);

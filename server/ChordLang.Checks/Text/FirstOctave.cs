// Asks for the octave that all following pitches of a row lean on.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a row whose first pitch has no octave.</summary>
public sealed class FirstOctave() : ReportedCheck(SyntaxCodes.Octave, Severity.Error);

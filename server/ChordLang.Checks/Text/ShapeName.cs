// Keeps the names of shapes apart from pitches, counts and words of the notation.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a shape whose name would be read as something else.</summary>
public sealed class ShapeName() : ReportedCheck(SyntaxCodes.ShapeName, Severity.Error);

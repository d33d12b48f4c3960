// Turns repeat signs drawn with strokes and colons into the words that the form is read from.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Form;

/// <summary>Reports double bars and repeat signs drawn on a chart line.</summary>
public sealed class RepeatSign() : ReportedCheck(SyntaxCodes.RepeatSign, Severity.Warning);

// Catches a quote that never ends, before it swallows notes.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a quotation mark without its partner.</summary>
public sealed class OpenQuote() : ReportedCheck(SyntaxCodes.OpenQuote, Severity.Warning);

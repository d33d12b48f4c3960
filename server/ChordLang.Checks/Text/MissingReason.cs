// Asks for the reason of an exception, for the next reader has only the text.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports an <c>allow</c> comment that gives no reason.</summary>
public sealed class MissingReason() : ReportedCheck(SyntaxCodes.MissingReason, Severity.Warning);

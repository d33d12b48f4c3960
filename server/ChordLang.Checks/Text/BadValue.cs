// Catches a setting or form word whose value could not be read, for it is then not in force.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a setting, shape, form or expect line whose first word is known and whose rest is not.</summary>
public sealed class BadValue() : ReportedCheck(SyntaxCodes.BadValue, Severity.Error);

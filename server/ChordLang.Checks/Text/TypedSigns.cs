// Turns what phones and mail programs make of plain signs back into plain signs.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports dashes, quotes, crosses and capitals that were put in by a phone or a mail program; the music is understood.</summary>
public sealed class TypedSigns() : ReportedCheck(SyntaxCodes.Typing, Severity.Hint);

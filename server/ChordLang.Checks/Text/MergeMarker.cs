// Keeps two versions of the same bars from being played one after the other.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a line that version control left in the file.</summary>
public sealed class MergeMarker() : ReportedCheck(SyntaxCodes.MergeMarker, Severity.Error);

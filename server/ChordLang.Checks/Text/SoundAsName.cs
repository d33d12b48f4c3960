// Sends a sound to the place where sounds stand.
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Text;

/// <summary>Reports a pitch, a fret or frets in the place of a chord symbol.</summary>
public sealed class SoundAsName() : ReportedCheck(SyntaxCodes.SoundAsName, Severity.Error);

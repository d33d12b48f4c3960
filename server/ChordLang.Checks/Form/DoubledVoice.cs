// Keeps a label to one voice, so that a voice can be followed through the piece.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports two rows of one bar with the same label.</summary>
public sealed class DoubledVoice() : ReportedCheck(TroubleCodes.DoubledVoice, Severity.Warning);

// Keeps shapes with open strings where they are, for an open string does not move along.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Frets;

/// <summary>Reports a shape with open strings that is moved up or down.</summary>
public sealed class OpenShape() : ReportedCheck(TroubleCodes.OpenShape, Severity.Error);

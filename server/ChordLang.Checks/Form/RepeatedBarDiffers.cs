// Catches a repeated bar that does not fit into its own length.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Form;

/// <summary>Reports <c>%</c> in a bar of another length than the bar it repeats.</summary>
public sealed class RepeatedBarDiffers() : ReportedCheck(TroubleCodes.RepeatedBarDiffers, Severity.Warning);

// Says why the shapes of another file are not to be had.
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Text;

/// <summary>Reports a <c>use</c> line whose file is missing, lies outside the library, or uses this one in turn.</summary>
public sealed class UseRefused() : ReportedCheck(TroubleCodes.UseRefused, Severity.Error);

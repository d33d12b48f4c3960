// What the checks of written fingers share: each reports one kind of fault, and a grip gives one finding.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Fingering;

namespace ChordLang.Checks.Hand;

/// <summary>Reports one way in which a written fingering cannot be.</summary>
/// <param name="code">The name of the check.</param>
/// <param name="title">What it finds.</param>
/// <param name="kind">The fault that it reports.</param>
public abstract class WrittenFingerCheck(string code, string title, FingeringFaultKind kind) : Check
{
    /// <inheritdoc/>
    public sealed override string Code => code;

    /// <inheritdoc/>
    public sealed override string Title => title;

    /// <inheritdoc/>
    public sealed override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public sealed override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var verdict in FingerVerdict.Of(piece))
            if (verdict.Kind == kind)
                yield return new(code, Severity, verdict.Message, verdict.Span) { Strings = verdict.Strings, Fixes = verdict.Fixes };
    }
}

// Keeps tones that fight the symbol from being taught as the chord.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameContradiction : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.Contradiction;

    /// <inheritdoc/>
    public override string Title => "A tone contradicts the chord's name";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

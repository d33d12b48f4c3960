// Misses the tones that tell one chord from another.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameMissingTone : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.MissingTone;

    /// <inheritdoc/>
    public override string Title => "A tone that makes the chord is missing";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

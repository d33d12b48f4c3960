// Holds the slash of a symbol to its word: what is under it sounds lowest.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameSlashBass : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.SlashBass;

    /// <inheritdoc/>
    public override string Title => "The slash bass is not the lowest tone";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

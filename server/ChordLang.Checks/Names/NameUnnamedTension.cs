// Proposes the fuller symbol where the hand plays more than the chart says.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameUnnamedTension : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.UnnamedTension;

    /// <inheritdoc/>
    public override string Title => "A tension sounds that the symbol does not name";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

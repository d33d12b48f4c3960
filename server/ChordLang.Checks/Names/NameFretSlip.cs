// Catches the one wrong fret in a grip that is otherwise the chord.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameFretSlip : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.FretSlip;

    /// <inheritdoc/>
    public override string Title => "A finger slipped by a fret or two";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

// Catches the hurried hand that writes the right frets one string over.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Checks.Names;

/// <summary>See its page.</summary>
public sealed class NameStringSetSlip : Check
{
    /// <inheritdoc/>
    public override string Code => NameVerdicts.StringSetSlip;

    /// <inheritdoc/>
    public override string Title => "The grip slipped to the neighbouring strings";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => NameVerdicts.Of(piece, Code);
}

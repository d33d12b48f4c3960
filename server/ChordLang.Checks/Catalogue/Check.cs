// What every check is: a name, a page, and one question put to the piece.
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

/// <summary>A check. Stateless; its page is the Markdown file of the same name beside it.</summary>
public abstract class Check
{
    /// <summary>Its permanent name: family, then what it finds, in kebab-case.</summary>
    public abstract string Code { get; }

    /// <summary>What it finds, in one line.</summary>
    public abstract string Title { get; }

    /// <summary>How grave its findings are (a check that has two grades says the graver here).</summary>
    public abstract Severity Severity { get; }

    /// <summary>All it finds in a piece, in the order of the text.</summary>
    public abstract IEnumerable<Finding> Find(Piece piece);
}

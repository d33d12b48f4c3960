// Places in a text: offsets, line positions and edits. Characters are UTF-16 units.
namespace ChordLang.Grammar.Text;

/// <summary>A stretch of text.</summary>
/// <param name="Start">Offset of the first character, in UTF-16 units.</param>
/// <param name="Length">How many UTF-16 units.</param>
public readonly record struct Span(int Start, int Length)
{
    /// <summary>Offset just behind the last character.</summary>
    public int End => Start + Length;

    /// <summary>The span from one offset to another.</summary>
    public static Span Between(int start, int end) => new(start, end - start);

    /// <summary>The same stretch, moved.</summary>
    public Span Shift(int by) => new(Start + by, Length);

    /// <summary>The smallest span that holds both.</summary>
    public Span Join(Span other) => Between(Math.Min(Start, other.Start), Math.Max(End, other.End));

    /// <summary>True where the offset lies in the span or just behind it.</summary>
    public bool Touches(int offset) => offset >= Start && offset <= End;
}

/// <summary>A place as editors count it, from 0.</summary>
/// <param name="Line">Line, from 0.</param>
/// <param name="Character">UTF-16 units from the start of the line.</param>
public readonly record struct LinePosition(int Line, int Character);

/// <summary>A replacement of one stretch of text; an empty span inserts.</summary>
/// <param name="Span">What is replaced.</param>
/// <param name="NewText">What stands there afterwards.</param>
public sealed record TextEdit(Span Span, string NewText);

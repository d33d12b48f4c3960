// One line of a sheet as it is handed on: its drawing, the bars it holds and the text it comes from.
using System.Collections.Immutable;
using System.Globalization;

namespace ChordLang.Interchange.Sheet;

/// <summary>A drawn line. It can be replaced alone when its bars change.</summary>
public sealed record SheetSystem
{
    /// <summary>Index of its first bar.</summary>
    public required int FirstBar { get; init; }

    /// <summary>Index of its last bar.</summary>
    public required int LastBar { get; init; }

    /// <summary>Where its text begins, in offsets of the text.</summary>
    public required int From { get; init; }

    /// <summary>Where its text ends.</summary>
    public required int To { get; init; }

    /// <summary>Width in units of the drawing.</summary>
    public required double Width { get; init; }

    /// <summary>Height in units of the drawing.</summary>
    public required double Height { get; init; }

    /// <summary>The elements of the drawing, without the svg element around them.</summary>
    public required string Drawing { get; init; }

    /// <summary>SMuFL names of the signs it refers to, as <c>#clg-NAME</c>.</summary>
    public required ImmutableArray<string> Glyphs { get; init; }

    /// <summary>By how much its columns stand farther apart than they would by themselves.</summary>
    public required double Stretch { get; init; }

    /// <summary>Sentences to be read aloud in its place.</summary>
    public ImmutableArray<string> Spoken { get; init; } = [];

    /// <summary>As an element for a page, hidden from screen readers, which have <see cref="Spoken"/>.</summary>
    public string Svg => string.Create(CultureInfo.InvariantCulture,
        $"<svg class=\"sys\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Canvas.N(Width)} {Canvas.N(Height)}\" aria-hidden=\"true\" focusable=\"false\" data-first=\"{FirstBar}\" data-last=\"{LastBar}\" data-from=\"{From}\" data-to=\"{To}\">{Drawing}</svg>");
}

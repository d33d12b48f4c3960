// The kinds of line. A line is parsed alone, knows nothing of its neighbours, and its offsets count from its own start.
using System.Collections.Immutable;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Syntax;

/// <summary>A parsed line. The tokens, and the blanks between them, are the whole line.</summary>
/// <param name="Text">The line without its end.</param>
public abstract record LineSyntax(string Text)
{
    /// <summary>All tokens, in order, none overlapping.</summary>
    public ImmutableArray<Token> Tokens { get; init; } = [];

    /// <summary>What the parser has to say.</summary>
    public ImmutableArray<SyntaxFinding> Findings { get; init; } = [];

    /// <summary>The text of a part of the line.</summary>
    public string this[Span span] => Text.Substring(span.Start, span.Length);
}

/// <summary>Nothing, or blanks.</summary>
public sealed record BlankLine(string Text) : LineSyntax(Text);

/// <summary>A line that could not be read at all; its finding says why.</summary>
public sealed record UnreadableLine(string Text) : LineSyntax(Text);

/// <summary>Seven equal signs of a merge that was not finished.</summary>
/// <param name="Text">The line.</param>
/// <param name="Sign">The sign: <c>&lt;</c>, <c>=</c>, <c>&gt;</c> or <c>|</c>.</param>
public sealed record MergeMarkerLine(string Text, char Sign) : LineSyntax(Text);

/// <summary><c>// words</c>, or <c>// allow NAME: reason</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Allow">The check whose finding is silenced, where the comment is of that form.</param>
public sealed record CommentLine(string Text, AllowSyntax? Allow) : LineSyntax(Text);

/// <summary>The silencing form of a comment.</summary>
/// <param name="Name">Where the check's name stands.</param>
/// <param name="Code">The check's name.</param>
/// <param name="Reason">The reason given; empty where it was forgotten.</param>
public sealed record AllowSyntax(Span Name, string Code, string Reason);

/// <summary><c>&gt; teaching text</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Words">The text behind the sign, without the one blank that follows it.</param>
public sealed record ProseLine(string Text, string Words) : LineSyntax(Text);

/// <summary>A setting: <c>key G major</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Keyword">Where the setting's word stands.</param>
/// <param name="Kind">Which setting.</param>
/// <param name="Value">Its value, or null where it could not be read.</param>
/// <param name="ValueSpan">Where the value stands (empty at the end of the line where there is none).</param>
public sealed record SettingLine(string Text, Span Keyword, SettingKind Kind, SettingValue? Value, Span ValueSpan) : LineSyntax(Text);

/// <summary><c>section Bridge</c>, <c>section A again</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Name">Where the name stands; empty where it was forgotten.</param>
/// <param name="Again">True for the form that plays a section again.</param>
public sealed record SectionLine(string Text, Span Name, bool Again) : LineSyntax(Text);

/// <summary><c>shape low-drop = 1-x-1-1-1-x fingers 1-x-2-3-4-x</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Name">Where the name stands.</param>
/// <param name="Slots">The voicing, or null where it could not be read.</param>
/// <param name="Fingers">The fingers, where given.</param>
public sealed record ShapeLine(string Text, Span Name, SlotsSound? Slots, FingersOperand? Fingers) : LineSyntax(Text)
{
    /// <summary>The name in plain signs, as rows call for it.</summary>
    public string Called { get; } = string.Concat(Text.Substring(Name.Start, Name.Length).Select(Parsing.Typing.Plain));
}

/// <summary><c>use "shapes.chl"</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Quote">Where the path stands, with its quotes.</param>
/// <param name="Path">The path without quotes.</param>
public sealed record UseLine(string Text, Span Quote, string Path) : LineSyntax(Text);

/// <summary>A chart line: one bar, or several where nothing is written under them.</summary>
/// <param name="Text">The line.</param>
/// <param name="Bars">The bars, at least one.</param>
public sealed record ChartLine(string Text, ImmutableArray<BarSyntax> Bars) : LineSyntax(Text);

/// <summary>A row of events.</summary>
/// <param name="Text">The line.</param>
/// <param name="Label">Where the voice label stands with its colon, or null.</param>
/// <param name="Voice">The voice's name, or null.</param>
/// <param name="Events">The events that could be read, in order.</param>
public sealed record RowLine(string Text, Span? Label, string? Voice, ImmutableArray<EventSyntax> Events) : LineSyntax(Text);

/// <summary>A form word on a line of its own.</summary>
/// <param name="Text">The line.</param>
/// <param name="Kind">Which.</param>
/// <param name="Number">Times of a repeat (2 where none is written), number of an ending; else 0.</param>
/// <param name="Count">The count of <c>pickup from 4&amp;</c>.</param>
public sealed record FormLine(string Text, FormKind Kind, int Number, CountSyntax? Count) : LineSyntax(Text);

/// <summary>Form words of the trade.</summary>
public enum FormKind
{
    /// <summary><c>repeat 2</c>: what follows, up to <c>end</c>, is played that often.</summary>
    Repeat,
    /// <summary><c>ending 1</c>: what follows is played that time only.</summary>
    Ending,
    /// <summary><c>end</c> of the repeat.</summary>
    End,
    /// <summary><c>pickup from 4&amp;</c>: the next bar is bar 0.</summary>
    Pickup,
    /// <summary><c>segno</c>.</summary>
    Segno,
    /// <summary><c>coda</c>: here the coda begins.</summary>
    Coda,
    /// <summary><c>to coda</c>: from here one leaps to the coda, the last time.</summary>
    ToCoda,
    /// <summary><c>fine</c>.</summary>
    Fine,
    /// <summary><c>da capo</c>.</summary>
    DaCapo,
    /// <summary><c>da capo al fine</c>.</summary>
    DaCapoAlFine,
    /// <summary><c>da capo al coda</c>.</summary>
    DaCapoAlCoda,
    /// <summary><c>dal segno</c>.</summary>
    DalSegno,
    /// <summary><c>dal segno al fine</c>.</summary>
    DalSegnoAlFine,
    /// <summary><c>dal segno al coda</c>.</summary>
    DalSegnoAlCoda,
}

/// <summary><c>expect no fret above 12</c>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Expectation">What is expected, or null where it could not be read.</param>
/// <param name="Claim">Where the claim stands.</param>
public sealed record ExpectLine(string Text, Expectation? Expectation, Span Claim) : LineSyntax(Text);

/// <summary>The closed list of things a piece can be expected to keep to.</summary>
public enum ExpectKind
{
    /// <summary><c>no fret above 12</c>.</summary>
    NoFretAbove,
    /// <summary><c>no fret below 5</c> (open strings are not frets).</summary>
    NoFretBelow,
    /// <summary><c>no open strings</c>.</summary>
    NoOpenStrings,
    /// <summary><c>only shapes low-drop high-drop</c>: every voicing is one of these.</summary>
    OnlyShapes,
    /// <summary><c>only voicings drop-2 shell</c>: every voicing is of one of these kinds, see <see cref="Parsing.Vocabulary.VoicingKinds"/>.</summary>
    OnlyVoicings,
    /// <summary><c>only strings 1 2 3 4</c>.</summary>
    OnlyStrings,
    /// <summary><c>top note is melody</c>: each voicing's highest note is the note of the first row then.</summary>
    TopNoteIsMelody,
    /// <summary><c>every voicing named</c>: a symbol or <c>is</c> stands for each.</summary>
    EveryVoicingNamed,
    /// <summary><c>at most 4 notes at once</c>.</summary>
    AtMostNotes,
    /// <summary><c>bars 32</c>.</summary>
    Bars,
    /// <summary><c>no findings</c>.</summary>
    NoFindings,
}

/// <summary>One expectation.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Number">Its number, where it has one.</param>
/// <param name="Names">Its names or numbers, where it has a list.</param>
public sealed record Expectation(ExpectKind Kind, int Number, ImmutableArray<string> Names);

// What a stretch of text takes in: its lines and the events on them.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

/// <summary>A chosen stretch of a lesson.</summary>
internal sealed class Selection
{
    /// <summary>Of a stretch that lies in the text.</summary>
    public Selection(Lesson lesson, Span range)
    {
        (Lesson, Range) = (lesson, range);
        (FirstLine, LastLine) = (lesson.Text.LineAt(range.Start), lesson.Text.LineAt(range.End));
        // A selection of whole lines ends at the start of the next; that one is not meant.
        if (LastLine > FirstLine && range.End == lesson.Text.Lines[LastLine].Start)
            LastLine--;
        Events = [.. Enumerable.Range(FirstLine, LastLine - FirstLine + 1).SelectMany(On).Where(Chosen)];
    }

    /// <summary>The lesson.</summary>
    public Lesson Lesson { get; }

    /// <summary>The stretch.</summary>
    public Span Range { get; }

    /// <summary>Its first line.</summary>
    public int FirstLine { get; }

    /// <summary>Its last line.</summary>
    public int LastLine { get; }

    /// <summary>The struck events that are written in it, in the order of the text. A cursor takes in one at most.</summary>
    public ImmutableArray<Event> Events { get; }

    /// <summary>The one event, or null where there are none or several.</summary>
    public Event? Single => Events is [var one] ? one : null;

    /// <summary>The music.</summary>
    public Piece Piece => Lesson.Piece;

    /// <summary>The text of an event: its count, its sound and its marks.</summary>
    public Span Extent(Event e) => Span.Between(Math.Min(e.CountSpan.Start, e.SoundSpan.Start), Piece.Tree.Absolute(e.Line, e.Syntax!.Span).End);

    private IEnumerable<Event> On(int line) => Lesson.RowOn(line) is { } at
        ? at.Row.Events.Where(e => e is { Kind: EventKind.Struck, Repeated: false, Syntax: not null }) : [];

    private bool Chosen(Event e)
    {
        var extent = Extent(e);
        return Range.Length == 0 ? extent.Touches(Range.Start) : extent.Start < Range.End && Range.Start < extent.End;
    }

    /// <summary>The chord on the chart under a cursor, with the time at which it begins; or null.</summary>
    public (Bar Bar, ChordSpan Chord)? ChartChord()
    {
        if (Piece.Tree.Lines[FirstLine] is not ChartLine || FirstLine != LastLine)
            return null;
        foreach (var bar in Lesson.BarsOn(FirstLine))
            foreach (var chord in bar.Chords)
                if (chord is { Carried: false, Symbol: not null } && chord.Span.Start <= Range.End && Range.Start <= chord.Span.End)
                    return (bar, chord);
        return null;
    }
}

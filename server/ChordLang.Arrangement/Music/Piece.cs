// A whole arrangement, bound to music: what sounds when, under which chord, on which string.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;

namespace ChordLang.Arrangement.Music;

/// <summary>An arrangement bound to music. Immutable; made by <see cref="Binder"/>. Times are whole notes from the first bar's start, in the order written.</summary>
public sealed record Piece
{
    /// <summary>The syntax it was bound from; all spans are offsets of its text.</summary>
    public required SyntaxTree Tree { get; init; }

    /// <summary>Title, or null.</summary>
    public string? Title { get; init; }

    /// <summary>Who wrote it, or null.</summary>
    public string? By { get; init; }

    /// <summary>Its tags.</summary>
    public ImmutableArray<string> Tags { get; init; } = [];

    /// <summary>Prose before the first section or bar, one entry a line.</summary>
    public ImmutableArray<string> Prose { get; init; } = [];

    /// <summary>The places in time where something is struck, with all that sounds there.</summary>
    public ImmutableArray<Moment> Moments => Found.Value;

    // The sheet and the placement do without them, so they are found when first asked for; a copy of the piece shares them.
    internal Lazy<ImmutableArray<Moment>> Found { get; init; } = new(() => []);

    /// <summary>The bars as written, in order. <c>section A again</c> adds none.</summary>
    public required ImmutableArray<Bar> Bars { get; init; }

    /// <summary>Sections, in order.</summary>
    public required ImmutableArray<Section> Sections { get; init; }

    /// <summary>Shapes that can be used, by name: its own first, then those of the files it uses.</summary>
    public required ImmutableDictionary<string, Shape> Shapes { get; init; }

    /// <summary>All events of all rows, by onset, then by row.</summary>
    public required ImmutableArray<Event> Events { get; init; }

    /// <summary>What could not be bound, or was bound with doubt.</summary>
    public required ImmutableArray<Trouble> Troubles { get; init; }

    /// <summary>The comments that silence a finding.</summary>
    public required ImmutableArray<Allow> Allows { get; init; }

    /// <summary>The expectations, with their lines.</summary>
    public required ImmutableArray<Expected> Expectations { get; init; }

    /// <summary>Bar indices in the order they are played: repeats, endings, sections again, da capo. Bounded; empty where the form does not hold together.</summary>
    public required ImmutableArray<int> PlayOrder { get; init; }

    /// <summary>Settings in force before the first bar.</summary>
    public required Settings Settings { get; init; }

    /// <summary>The bar of a time, or null outside the piece.</summary>
    public Bar? BarAt(Rational time)
    {
        int low = 0, high = Bars.Length - 1;
        while (low <= high)
        {
            var middle = (low + high) / 2;
            if (time < Bars[middle].Start) high = middle - 1;
            else if (time >= Bars[middle].End) low = middle + 1;
            else return Bars[middle];
        }
        return null;
    }

    /// <summary>The chord span in force at a time, or null.</summary>
    public ChordSpan? ChordAt(Rational time) => BarAt(time)?.Chords.FirstOrDefault(c => time >= c.Start && time < c.End);

    /// <summary>
    /// All notes that sound at a time, struck then or before, from any row; lowest first, dead ones left out. A note ends early where its string
    /// is struck again. Found from <see cref="Moments"/>.
    /// </summary>
    public ImmutableArray<Note> SoundingAt(Rational time)
    {
        int low = 0, high = Moments.Length - 1;
        while (low <= high)
        {
            var middle = (low + high) / 2;
            if (Moments[middle].Time <= time) low = middle + 1; else high = middle - 1;
        }
        var found = ImmutableArray.CreateBuilder<Note>();
        if (high >= 0)
            foreach (var (n, _) in Moments[high].Sounding)
                if (time < n.End && !found.Any(o => o.Midi == n.Midi && o.String == n.String && o.Fret == n.Fret))
                    found.Add(n);
        return found.ToImmutable();
    }
}

/// <summary>A named part of the piece.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Line">The line it is written on.</param>
/// <param name="FirstBar">Index of its first bar (for <c>again</c>: of the section meant).</param>
/// <param name="BarCount">How many bars.</param>
/// <param name="Again">True where it is played again.</param>
public sealed record Section(string Name, int Line, int FirstBar, int BarCount, bool Again)
{
    /// <summary>Prose that stands under its name, before its first bar, one entry a line.</summary>
    public ImmutableArray<string> Prose { get; init; } = [];
}

/// <summary>A chord in its span.</summary>
/// <param name="Start">When it begins, in whole notes from the start of the piece.</param>
/// <param name="End">When the next begins, or its bar ends.</param>
/// <param name="Chord">What it means; null for no chord and for a symbol that was not understood.</param>
/// <param name="Symbol">The symbol as written; null for <c>N.C.</c></param>
/// <param name="Span">Where the symbol is written (for a chord that lasts on: in an earlier bar).</param>
/// <param name="Carried">True where it is not written in this bar but lasts on, or is repeated by <c>%</c>.</param>
public sealed record ChordSpan(Rational Start, Rational End, Chord? Chord, SymbolSyntax? Symbol, Grammar.Text.Span Span, bool Carried);

/// <summary>A movable voicing with a name.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Slots">Frets as defined, lowest string first; null = not played.</param>
/// <param name="Fingers">Fingers, where given.</param>
/// <param name="Path">The file it comes from, or null for this one.</param>
/// <param name="Line">Its line there.</param>
/// <param name="Span">Where its name stands there.</param>
public sealed record Shape(string Name, ImmutableArray<int?> Slots, ImmutableArray<Finger>? Fingers, string? Path, int Line, Grammar.Text.Span Span);

/// <summary>A comment that silences a check.</summary>
/// <param name="Code">The check's name.</param>
/// <param name="Reason">Why; empty where it was forgotten.</param>
/// <param name="Line">The comment's line.</param>
/// <param name="FirstLine">First line whose findings it silences.</param>
/// <param name="LastLine">Last such line (a chart line brings its rows along).</param>
/// <param name="Span">Where the check's name stands.</param>
public sealed record Allow(string Code, string Reason, int Line, int FirstLine, int LastLine, Grammar.Text.Span Span);

/// <summary>An expectation of the piece.</summary>
public sealed record Expected(Expectation Expectation, int Line, Grammar.Text.Span Span);

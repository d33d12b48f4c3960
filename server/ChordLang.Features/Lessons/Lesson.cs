// One version of a text with all that is known of it, worked out when first asked for: what every feature reads.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Lessons;

/// <summary>A lesson: text, music, findings and harmony. Immutable to its readers; may be read by several threads.</summary>
public sealed class Lesson
{
    private readonly Lazy<Piece> piece;
    private readonly Lazy<ImmutableArray<Finding>> findings;
    private readonly Lazy<LessonHarmony> harmony;
    private readonly Lazy<Dictionary<int, (Bar Bar, Row Row)>> rows;

    private readonly Lazy<Dictionary<string, int>> labels;
    private readonly Lazy<PlacedPiece> placed;
    private readonly Lazy<Lesson> chart;
    private readonly Lesson? whole;

    /// <summary>Of a tree; binding and all else wait until they are asked for.</summary>
    /// <param name="tree">The syntax.</param>
    /// <param name="library">Where <c>use</c> finds its files, and what holds where the piece says nothing; or null.</param>
    /// <param name="configuration">The levels of checks, or null where none is configured.</param>
    /// <param name="memory">What was worked out for the version before; null where there was none.</param>
    public Lesson(SyntaxTree tree, ILibrary? library = null, Configuration? configuration = null, LessonMemory? memory = null) : this(tree, library, configuration, null, () => Binder.Bind(tree, library, memory: memory?.Music)) =>
        harmony = new(() => LessonHarmony.Of(this, memory));

    // Of a part of a longer lesson: what is said of the piece as a whole comes from that one.
    internal Lesson(Lesson whole, SyntaxTree part, Func<Piece> bind) : this(part, whole.Library, whole.Configuration, whole, bind) => harmony = whole.harmony;

    private Lesson(SyntaxTree tree, ILibrary? library, Configuration? configuration, Lesson? whole, Func<Piece> bind)
    {
        (Tree, Library, Configuration, this.whole, harmony) = (tree, library, configuration, whole, null!);
        piece = new(bind);
        findings = new(() => CheckCatalogue.Run(Piece, configuration ?? Configuration.None));
        rows = new(() => Rows(Piece));
        placed = new(() => PlacedPiece.Of(Piece, Piece.Settings.Hand));
        labels = whole is null ? new(() => Labels(tree)) : whole.labels;
        chart = whole is null ? new(() => LessonWindow.Chart(this)) : whole.chart;
    }

    /// <summary>The syntax.</summary>
    public SyntaxTree Tree { get; }

    /// <summary>Where <c>use</c> finds its files, or null.</summary>
    public ILibrary? Library { get; }

    /// <summary>The levels of checks, or null where none is configured.</summary>
    public Configuration? Configuration { get; }

    /// <summary>The text; all spans are its offsets.</summary>
    public SourceText Text => Tree.Source;

    /// <summary>The whole of which this is a part; itself where it is no part.</summary>
    public Lesson Whole => whole ?? this;

    /// <summary>The bars, sections and chords of the whole; of its rows only the lines, unless the whole was bound already.</summary>
    public Lesson Chart => Whole.IsBound ? Whole : chart.Value;

    /// <summary>True once the music was bound.</summary>
    public bool IsBound => piece.IsValueCreated;

    /// <summary>True once the checks have run.</summary>
    public bool IsChecked => findings.IsValueCreated;

    /// <summary>The music.</summary>
    public Piece Piece => piece.Value;

    /// <summary>What the checks find.</summary>
    public ImmutableArray<Finding> Findings => findings.Value;

    /// <summary>Keys, functions and skeleton of the whole.</summary>
    public LessonHarmony Harmony => harmony.Value;

    /// <summary>The piece on the strings, what was left open worked out.</summary>
    public PlacedPiece Placed => placed.Value;

    /// <summary>The bars that stand on a line, in order.</summary>
    public IEnumerable<Bar> BarsOn(int line)
    {
        int low = 0, high = Piece.Bars.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (Piece.Bars[middle].Line < line) low = middle + 1; else high = middle;
        }
        for (; low < Piece.Bars.Length && Piece.Bars[low].Line == line; low++)
            yield return Piece.Bars[low];
    }

    /// <summary>The row written on a line and its bar, or null.</summary>
    public (Bar Bar, Row Row)? RowOn(int line) => rows.Value.TryGetValue(line, out var row) ? row : null;

    /// <summary>The section that a bar belongs to, or null.</summary>
    public Section? SectionOf(Bar bar) => Piece.Sections.FirstOrDefault(s => !s.Again && bar.Index >= s.FirstBar && bar.Index < s.FirstBar + s.BarCount);

    /// <summary>The last bar that begins on a line or before it, or null.</summary>
    public Bar? LastBarBefore(int line)
    {
        int low = 0, high = Piece.Bars.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (Piece.Bars[middle].Line <= line) low = middle + 1; else high = middle;
        }
        return low > 0 ? Piece.Bars[low - 1] : null;
    }

    /// <summary>What is in force on a line.</summary>
    public Settings SettingsAt(int line) => LastBarBefore(line)?.Settings ?? Piece.Settings;

    /// <summary>The labels of voices in the whole text, by their first lines.</summary>
    public IEnumerable<string> Voices => labels.Value.Keys;

    /// <summary>The first line on which a voice is labelled, or -1.</summary>
    public int FirstLabel(string voice) => labels.Value.GetValueOrDefault(voice, -1);

    private static Dictionary<string, int> Labels(SyntaxTree tree)
    {
        var labels = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < tree.Lines.Length; i++)
            if (tree.Lines[i] is RowLine { Voice: { } voice })
                labels.TryAdd(voice, i);
        return labels;
    }

    private static Dictionary<int, (Bar, Row)> Rows(Piece piece)
    {
        var rows = new Dictionary<int, (Bar, Row)>();
        foreach (var bar in piece.Bars)
            foreach (var row in bar.Rows)
                if (!row.Borrowed)
                    rows.TryAdd(row.Line, (bar, row));
        return rows;
    }
}

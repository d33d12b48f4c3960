// Harmony that goes along with its text: an edit that leaves the chart as it was only moves the places of its chords.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Charts;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Lessons;

/// <summary>Harmony and what it was worked out from.</summary>
/// <param name="Tree">The syntax.</param>
/// <param name="Defaults">What was in force where the piece said nothing.</param>
/// <param name="Harmony">The harmony.</param>
internal sealed record KeptHarmony(SyntaxTree Tree, Settings? Defaults, LessonHarmony Harmony)
{
    /// <summary>The same for a later version, or null where its chart may be another. No music is bound for it.</summary>
    public KeptHarmony? For(Lesson lesson)
    {
        if (ReferenceEquals(lesson.Tree, Tree))
            return this;
        if (lesson.Library?.Defaults != Defaults)
            return null;
        var (old, now) = (Tree.Lines, lesson.Tree.Lines);
        var changed = now.Since(old);
        var (before, after) = (Of(old, changed.First, changed.Old), Of(now, changed.First, changed.New));
        if (before.Count != after.Count || after.Any(i => now[i] is FormLine { Kind: FormKind.Pickup }) || MeetsPickup(now, changed.First + changed.New))
            return null;
        // Where each symbol of the changed lines stands now.
        var moved = new Dictionary<Span, Span>();
        for (var i = 0; i < before.Count; i++)
            if (!Same(Tree, before[i], lesson.Tree, after[i], moved))
                return null;
        var (behind, end) = (changed.First + changed.Old, changed.First + changed.New);
        // Behind all lines there is the end of the text, on both sides.
        var from = behind < old.Length ? Tree.Source.Lines[behind].Start : Tree.Source.Length;
        var by = (end < now.Length ? lesson.Tree.Source.Lines[end].Start : lesson.Tree.Source.Length) - from;
        ChordPlace Moved(ChordPlace place) => place.Span.Start >= from ? place with { Span = place.Span.Shift(by) } : moved.TryGetValue(place.Span, out var there) ? place with { Span = there } : place;
        return new(lesson.Tree, Defaults, by == 0 && moved.Count == 0 ? Harmony : Harmony with { Written = Harmony.Written with { Places = [.. Harmony.Written.Places.Select(Moved)] } });
    }

    // True where two lines say the same of the chart, wherever in the line.
    private static bool Same(SyntaxTree old, int oldLine, SyntaxTree now, int line, Dictionary<Span, Span> moved)
    {
        if (old.Lines[oldLine] is not ChartLine { Bars: var bars } || now.Lines[line] is not ChartLine { Bars: var others })
            return old.Lines[oldLine].Text == now.Lines[line].Text;
        if (bars.Length != others.Length)
            return false;
        for (var b = 0; b < bars.Length; b++)
        {
            if (bars[b].Items.Length != others[b].Items.Length)
                return false;
            for (var i = 0; i < bars[b].Items.Length; i++)
            {
                var (one, other) = (bars[b].Items[i], others[b].Items[i]);
                if (one.Kind != other.Kind || one.Count?.Offset != other.Count?.Offset || Written(old.Lines[oldLine], one) != Written(now.Lines[line], other))
                    return false;
                if (one.Symbol is { } symbol)
                    moved[old.Absolute(oldLine, symbol.Span)] = now.Absolute(line, other.Symbol!.Span);
            }
        }
        return true;
    }

    private static string? Written(LineSyntax line, ChartItem item) => item.Symbol is { } symbol ? line[symbol.Span] : null;

    // The lines that a chart is read from, of a stretch.
    private static List<int> Of(SyntaxLines lines, int first, int count) =>
        [.. Enumerable.Range(first, count).Where(i => lines[i] is not (RowLine or ProseLine or CommentLine or BlankLine or ExpectLine))];

    // A pickup shortens the bar before it, unless something stands there in a row.
    private static bool MeetsPickup(SyntaxLines lines, int line)
    {
        while (line < lines.Length && lines[line] is not (ChartLine or FormLine))
            line++;
        return line < lines.Length && lines[line] is FormLine { Kind: FormKind.Pickup };
    }
}

// The way into completion: tells by the line and the words before the cursor what may stand there.
using System.Collections.Immutable;
using ChordLang.Features.Choices;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Completions;

/// <summary>Proposes what may stand at a place.</summary>
public static class CompletionsAt
{
    /// <summary>The proposals at an offset, best first.</summary>
    public static ImmutableArray<Proposal> Of(Lesson lesson, int offset, EditorChoices choices, ILibraryNames? library = null)
    {
        var place = Place.At(lesson, offset);
        var proposals = place.Opens switch
        {
            _ when place.Trimmed.StartsWith('|') => ChartProposals.Of(place),
            _ when place.Trimmed.StartsWith("//", StringComparison.Ordinal) => LineProposals.Comment(place),
            _ when place.Trimmed.StartsWith('>') => [],
            null when place.Indented && lesson.LastBarBefore(place.Line) is not null => RowProposals.Of(place, choices),
            null => LineProposals.Openers(place),
            "section" => LineProposals.Section(place),
            "use" => LineProposals.Use(place, library),
            "shape" => LineProposals.Shape(place),
            "expect" => LineProposals.Expect(place),
            { } first when Vocabulary.FirstWords.Contains(first) => LineProposals.Setting(place, first, library),
            _ => RowProposals.Of(place, choices),
        };
        return [.. proposals.DistinctBy(p => (p.Text, p.Replaces))];
    }
}

/// <summary>Where completion is asked for.</summary>
/// <param name="Lesson">The lesson.</param>
/// <param name="Line">The line, from 0.</param>
/// <param name="Before">The line up to the word under the cursor.</param>
/// <param name="Typed">The word under the cursor, up to it.</param>
/// <param name="Word">That word, all of it.</param>
internal sealed record Place(Lesson Lesson, int Line, string Before, string Typed, Span Word)
{
    /// <summary>The place at an offset. Blanks part words, and on a chart line bar lines do.</summary>
    public static Place At(Lesson lesson, int offset)
    {
        var line = lesson.Text.LineAt(offset);
        var (text, start) = (lesson.Text.LineText(line), lesson.Text.Lines[line].Start);
        var column = Math.Clamp(offset - start, 0, text.Length);
        var chart = text.TrimStart().StartsWith('|');
        var (from, to) = (column, column);
        while (from > 0 && !Parts(text[from - 1], chart))
            from--;
        while (to < text.Length && !Parts(text[to], chart))
            to++;
        return new(lesson, line, text[..from], text[from..column], Span.Between(start + from, start + to));
    }

    /// <summary>The line up to the cursor without the blanks before it.</summary>
    public string Trimmed => (Before + Typed).TrimStart();

    /// <summary>True where blanks open the line.</summary>
    public bool Indented => Before.Length > 0 && char.IsWhiteSpace(Before[0]);

    /// <summary>The words before the cursor's.</summary>
    public string[] Words => Before.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    /// <summary>The first word before the cursor's, or null where the cursor's is the first.</summary>
    public string? Opens => Words.FirstOrDefault();

    /// <summary>A proposal for the word under the cursor.</summary>
    public Proposal Whole(ProposalKind kind, string text, string? detail = null, string? snippet = null) => new(kind, text, Word, detail, snippet);

    /// <summary>A proposal for a part of that word, from so many characters behind its start to the next sign that parts degrees.</summary>
    public Proposal From(int skip, ProposalKind kind, string text, string? detail = null)
    {
        var end = Word.Start + Typed.Length;
        while (end < Word.End && Lesson.Text.At(end) is not (',' or ')' or '/'))
            end++;
        return new(kind, text, Span.Between(Word.Start + skip, end), detail);
    }

    private static bool Parts(char c, bool chart) => char.IsWhiteSpace(c) || chart && c == '|';
}

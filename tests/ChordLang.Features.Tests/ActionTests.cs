// Actions, by short texts with a cursor or a selection, and over all samples.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Actions;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class ActionTests
{
    // Of the events of a sample, every so many are tried; the samples are many.
    private const int Stride = 4;

    [Theory]
    // The symbol says Cmaj7, the grip has B flat where B should be: C E G Bb is C7 by common practice.
    [InlineData("| Cmaj7\n    1 ¦x-3-5-3-5-x", "Write C7 on the chart: another name of these notes", "| C7\n    1 x-3-5-3-5-x")]
    [InlineData("| Cma¦j7\n    1 x-3-5-3-5-x", "Write C7 on the chart: another name of these notes", "| C7\n    1 x-3-5-3-5-x")]
    [InlineData("| Cmaj7\n    1 ¦x-3-5-3-5-x ring", "Call this sound C7", "| Cmaj7\n    1 x-3-5-3-5-x is C7 ring")]
    [InlineData("| Cmaj7\n    1 ¦x-3-5-3-5-x is Cmaj7", "Call this sound C7", "| Cmaj7\n    1 x-3-5-3-5-x is C7")]
    // The same pitches G3 C4 E4 one set of strings lower lie a fourth (five frets) higher, and four frets where the major third is crossed: frets by equal temperament.
    [InlineData("| C\n    1 x-x-x-¦0-1-0", "Play it on strings 4, 3 and 2: x-x-5-5-5-x", "| C\n    1 x-x-5-5-5-x")]
    [InlineData("| C\n    1 x-x-5-¦5-5-x ring@4", "Play it on strings 3, 2 and 1: x-x-x-0-1-0", "| C\n    1 x-x-x-0-1-0 ring@3")]
    [InlineData("| C\n    1 ¦G3@4+C4@3+E4@2", "Play it on strings 3, 2 and 1: x-x-x-0-1-0", "| C\n    1 G3@3+C4@2+E4@1")]
    [InlineData("| C\n    1 ¦G3+C4+E4 = x-x-5-5-5-x", "Play it on strings 3, 2 and 1: x-x-x-0-1-0", "| C\n    1 G3@3+C4@2+E4@1 = x-x-x-0-1-0")]
    [InlineData("| C\n    1 ¦x-x-5-5-5-x", "Write its pitches", "| C\n    1 G3+C4+E4 = x-x-5-5-5-x")]
    [InlineData("| C\n    1 ¦8@2", "Write its pitches", "| C\n    1 G4 = 8@2")]
    [InlineData("| C\n    1 C4  2 ¦D  3 E¦", "Write the octaves", "| C\n    1 C4  2 D4  3 E4")]
    // E2 lies on the lowest string of standard tuning and nowhere else.
    [InlineData("| C\n    1 E¦2", "Write its strings", "| C\n    1 E2@6")]
    [InlineData("| C\n    1 x-¦3-2-0-1-0", "Write its left-hand fingers", "| C\n    1 x-3-2-0-1-0 fingers x-3-2-0-1-0")]
    [InlineData("| C\n    1 ¦8@2 ring", "Write its left-hand fingers", "| C\n    1 8@2 finger 1 ring")]
    [InlineData("title A\n\n| C | G\n| C\n    1 ¦x-3-2-0-1-0", "Make a shape of this voicing", "title A\n\nshape grip-1 = x-3-2-0-1-0\n\n| C | G\n| C\n    1 grip-1")]
    [InlineData("shape low = x-3-5-4-5-x\n| C\n    1 x-3-2-0-1¦-0 2 x-3-2-0-1-0", "Make a shape of this voicing", "shape low = x-3-5-4-5-x\nshape grip-1 = x-3-2-0-1-0\n| C\n    1 grip-1 2 grip-1")]
    [InlineData("shape low = x-3-5-4-5-x\n| Dmaj7\n    1 l¦ow+2 ring", "Write low out as frets", "shape low = x-3-5-4-5-x\n| Dmaj7\n    1 x-5-7-6-7-x ring")]
    [InlineData("| B7\n    1 D¦#4", "Write D#4 as Eb4", "| B7\n    1 Eb4")]
    [InlineData("key E major\n| B7\n    1 E¦b4", "Spell it as key and harmony call for", "key E major\n| B7\n    1 D#4")]
    [InlineData("key C major\n| C\n    1 ¦C4  2 E4\n| G7\n    1 x-x-3-4-3-3¦", "Transpose the selected lines up a whole step", "key C major\n| C\n    1 D4  2 F#4\n| A7\n    1 x-x-5-6-5-5")]
    [InlineData("| Cmaj7\n    1 x-3-5-4-¦6-x", "Allow name-fret-slip here, on purpose", "| Cmaj7\n    // allow name-fret-slip: on purpose\n    1 x-3-5-4-6-x")]
    [InlineData("¦title: A\n| C", "Fix all that is safe to fix: what sounds stays the same", "title  A\n| C")]
    public void An_action_writes(string marked, string title, string after)
    {
        var (lesson, range) = Read(marked);
        var actions = ActionsAt.Of(lesson, range).ToList();
        var action = actions.FirstOrDefault(a => a.Title == title);
        Assert.True(action is not null, $"There is no '{title}' among:\n{string.Join('\n', actions.Select(a => a.Title))}");
        Assert.Equal(after + "\n", lesson.Text.With(action.Edits).Text);
    }

    [Fact]
    public void Other_voicings_hold_the_chord_and_keep_the_top_note()
    {
        var (lesson, range) = Read("| Dm7\n    1 ¦x-5-7-5-6-x");
        var others = ActionsAt.Of(lesson, range).Where(a => a.Id.StartsWith("voicing ", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(others);
        foreach (var other in others)
        {
            var e = Assert.Single(new Lesson(SyntaxTree.Parse(lesson.Text.With(other.Edits))).Piece.Events);
            // Fret 6 of the second string is F4; the third and seventh of Dm7 are F and C (common practice).
            Assert.Equal(65, e.Notes.Max(n => n.Midi));
            Assert.Contains(e.Notes, n => n.Midi % 12 == 0);
            Assert.All(e.Notes, n => Assert.Contains(n.Midi % 12, (int[])[2, 5, 9, 0]));
        }
    }

    // The same pitches, whatever is written or moved; and no action breaks a line that could be read.
    [Fact]
    public void Over_all_samples_every_action_leaves_a_text_that_says_what_it_promises()
    {
        var wrong = new List<string>();
        var done = 0;
        foreach (var path in Repository.Samples())
        {
            var lesson = new Lesson(SyntaxTree.Parse(SourceText.From(Repository.Bytes(path))));
            var places = lesson.Piece.Events.Where(e => e is { Kind: EventKind.Struck, Repeated: false, Syntax: not null }).Select(e => e.SoundSpan.Start).Distinct().Where((_, i) => i % Stride == 0).Select(at => new Span(at, 0))
                .Append(new(0, lesson.Text.Text.Length)).Append(new(0, 0));
            foreach (var place in places)
                foreach (var action in ActionsAt.Of(lesson, place).Where(a => a.Finding is null))
                {
                    done++;
                    var edits = action.Edits.OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End).ToList();
                    if (edits.Zip(edits.Skip(1)).Any(p => p.First.Span.End > p.Second.Span.Start))
                        wrong.Add($"{path} {action.Id}: edits overlap");
                    var after = new Lesson(SyntaxTree.Parse(lesson.Text.With(action.Edits)));
                    if (Unread(after) > Unread(lesson) || !action.Id.StartsWith("transpose", StringComparison.Ordinal) && Unbound(after) > Unbound(lesson))
                        wrong.Add($"{path} {place.Start} {action.Id}: breaks a line: {string.Join("; ", after.Piece.Troubles.Select(t => t.Code))}");
                    if (action.Id.Split(' ')[0] is "set" or "write" or "make" or "inline" or "respell" or "spell" or "name" && Sound(after) != Sound(lesson))
                        wrong.Add($"{path} {place.Start} {action.Id}: sounds otherwise");
                }
        }
        Assert.True(done > 300, $"only {done} actions were tried");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(20)));
    }

    [Fact]
    public void Changed_lines_are_edited_one_by_one_and_nothing_is_cut_in_half()
    {
        var from = SourceText.From("a\r\nb\r\n𝄫c\nd");
        Assert.Equal(2, SafeFixes.Difference(from, SourceText.From("A\r\nb\r\n𝄫C\nd")).Length);
        foreach (var to in (string[])["", "a\rb\r\n𝄫c\nd", "a\r\nb\r\n𝄪c\nd\ne", "a\r\n\n𝄫c\nd", "a\r\nb\r\n𝄫c\nd"])
            Assert.Equal(to, from.With(SafeFixes.Difference(from, SourceText.From(to))).Text);
    }

    private static int Unread(Lesson lesson) => lesson.Tree.Lines.Sum(l => l.Findings.Length);

    private static int Unbound(Lesson lesson) => lesson.Piece.Troubles.Count(t => t.Code != "text-unused-shape");

    private static string Sound(Lesson lesson) => string.Join(' ', lesson.Piece.Events.Select(e => $"{e.Onset}:{string.Join('+', e.Notes.Select(n => n.Midi).Order())}"));

    private static (Lesson Lesson, Span Range) Read(string marked)
    {
        var parts = marked.Split('¦');
        return (new(SyntaxTree.Parse(string.Concat(parts) + "\n")), new(parts[0].Length, parts.Length > 2 ? parts[1].Length : 0));
    }
}

// No hover is empty where music, a label or a setting stands, in any sample, broken ones too.
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class HoverSampleTests
{
    public static TheoryData<string> Samples => [.. Directory.EnumerateFiles(Repository.At("samples"), "*.chl", SearchOption.AllDirectories).Select(p => Path.GetRelativePath(Repository.At("samples"), p)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_word_of_music_is_explained(string sample)
    {
        var lesson = new Lesson(SyntaxTree.Parse(SourceText.From(File.ReadAllBytes(Repository.At(Path.Combine("samples", sample))))));
        for (var i = 0; i < lesson.Tree.Lines.Length; i++)
        {
            if (lesson.Tree.Lines[i] is ProseLine or CommentLine or UnreadableLine)
                continue;
            foreach (var token in lesson.Tree.Lines[i].Tokens)
            {
                var span = lesson.Tree.Absolute(i, token.Span);
                var hover = HoverAt.Of(lesson, span.Start);
                Assert.True(hover is not null, $"line {i + 1}: {lesson.Text[span]} ({token.Kind}) has no hover");
                Assert.True(hover.First.Length > 0 && hover.First[^1] is '.' or '!' or '?', $"line {i + 1}: {hover.First}");
                Assert.True(hover.Span.Touches(span.Start), $"line {i + 1}: the hover of {lesson.Text[span]} lies elsewhere");
            }
        }
    }
}

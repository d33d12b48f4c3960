// Every feature at every word of every sample, broken ones too: none breaks, and what comes back lies in the text.
using ChordLang.Features.Completions;
using ChordLang.Features.Hints;
using ChordLang.Features.Lessons;
using ChordLang.Features.Names;
using ChordLang.Features.Outlines;
using ChordLang.Features.Structure;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Features.Tests;

public sealed class EveryPositionTests
{
    public static TheoryData<string> Samples => HoverSampleTests.Samples;

    [Theory]
    [MemberData(nameof(Samples))]
    public void All_features_answer_inside_the_text(string sample)
    {
        var lesson = new Lesson(SyntaxTree.Parse(SourceText.From(File.ReadAllBytes(Repository.At(Path.Combine("samples", sample))))));
        var length = lesson.Text.Text.Length;
        for (var i = 0; i < lesson.Tree.Lines.Length; i++)
        {
            var line = lesson.Text.Lines[i];
            foreach (var offset in lesson.Tree.Lines[i].Tokens.SelectMany(t => new[] { t.Span.Start, t.Span.Start + t.Span.Length / 2, t.Span.End }).Select(c => c + line.Start).Append(line.Start).Append(line.End).Distinct())
            {
                // Voicings cost most and are held by tests of their own.
                foreach (var p in CompletionsAt.Of(lesson, offset, new() { Voicings = 0 }))
                    Assert.True(p.Replaces.Start >= line.Start && p.Replaces.End <= line.End && p.Replaces.Touches(offset) && p.Text.Length > 0, $"line {i + 1}, {p.Text}: {p.Replaces}");
                if (SignatureAt.Of(lesson, offset) is { } signature)
                    Assert.InRange(signature.Active, 0, signature.Parts.Length - 1);
                var spans = SelectionsAt.Of(lesson, offset);
                Assert.All(spans, s => Assert.True(s.Touches(offset) && s.End <= length));
                Assert.Equal(length, spans[^1].Length);
                if (NameAt.Of(lesson, offset) is { } name)
                    Assert.Contains(NamePlaces.Of(lesson, name.Kind, name.Name), p => p.Span == name.Span);
            }
        }
        Assert.All(OutlineOf.Lesson(lesson), p => Assert.True(p.Selection.Start >= p.Span.Start && p.Selection.End <= p.Span.End && p.Span.End <= length, p.Name));
        Assert.All(FoldsOf.Lesson(lesson, true), f => Assert.InRange(f.LastLine, f.FirstLine + 1, lesson.Tree.Lines.Length - 1));
        Assert.All(HintsIn.Of(lesson, new(0, length), new(true, true, true, true, true)), h => Assert.True(h.Offset <= length && h.Text.Length > 0));
    }
}

// Merging never breaks down, never loses what only one side changed, and leaves no doubt unmarked.
using ChordLang.Features.Comparing;
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Merging;
using ChordLang.Fuzz.Generating;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

internal static class MergeTargets
{
    public static Target[] All { get; } = [new("merge", "what one side changed comes through, two equal sides stay as they are, every doubt has its markers; a lesson does not differ from itself", 3, Make, Run)];

    private static string Make(Dice dice)
    {
        var old = dice.One(3) ? Texts.Any(dice) : Texts.Good(dice);
        return Parts.Join(old, Changed(dice, old), Changed(dice, old));
    }

    private static string Changed(Dice dice, string text)
    {
        if (dice.One(3))
            return Mutations.Text(dice, text, Texts.Good(dice), Odds.Tokens);
        var lines = text.Split('\n').ToList();
        for (var n = dice.Next(4); n > 0; n--)
            lines.Insert(dice.Next(lines.Count + 1), Pieces.Line(dice));
        if (dice.One(2) && lines.Count > 1)
            lines.RemoveAt(dice.Next(lines.Count));
        return string.Join('\n', lines);
    }

    private static string? Run(string input)
    {
        var sources = Parts.Of(input, 3)[..3].Select(SourceText.From).ToList();
        var (old, ours, theirs) = (sources[0], sources[1], sources[2]);
        if (LessonMerge.Merge(old, ours, theirs) is { } merged && Marked(merged) is { } trouble)
            return trouble;
        // A line end at the end of the file may come; nothing else may.
        // One of the three, for a merge binds four pieces.
        foreach (var (name, a, b, wanted) in new[] { ("only theirs changed", old, theirs, theirs), ("only ours changed", ours, old, ours), ("both changed alike", ours, ours, ours) }.Skip(input.Length % 3).Take(1))
            if (LessonMerge.Merge(old, a, b) is { Doubts.IsEmpty: true } clean && !Meaning.Of(SyntaxTree.Parse(clean.Text.TrimEnd('\r', '\n'))).SequenceEqual(Meaning.Of(SyntaxTree.Parse(wanted.Text.TrimEnd('\r', '\n')))))
                return $"{name}, and yet this came:\n{clean.Text}\nnot\n{wanted}";
        var piece = Binder.Bind(SyntaxTree.Parse(ours));
        if (PieceComparison.Of(piece, piece) is var same && (!same.SameMusic || same.Changes.Length > 0))
            return $"a lesson differs from itself: {same.Summary}";
        _ = PieceComparison.Of(Binder.Bind(SyntaxTree.Parse(old)), piece).Sentences.Length;
        return null;
    }

    private static string? Marked(MergedLesson merged)
    {
        var markers = SyntaxTree.Parse(merged.Text).Lines.OfType<MergeMarkerLine>().Select(l => l.Text[0]).ToList();
        return merged.Doubts.IsEmpty ? markers.Count == 0 ? null : $"a clean merge holds markers:\n{merged.Text}"
            : markers.Count(m => m == '<') is var conflicts && conflicts > 0 && conflicts == markers.Count(m => m == '=') && conflicts == markers.Count(m => m == '>') ? null : $"the doubts {string.Join("; ", merged.Doubts)} are not marked:\n{merged.Text}";
    }
}

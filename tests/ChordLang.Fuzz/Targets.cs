// What is fuzzed, and which property each target must keep.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Scores;
using ChordLang.Interchange.TabText;
using ChordLang.Testing;

namespace ChordLang.Fuzz;

/// <summary>A target: takes a text, answers null or which property broke.</summary>
internal sealed record Target(string Name, Func<string, string?> Run);

internal static class Targets
{
    public static Target[] All { get; } =
    [
        new("parse: tokens in order, findings inside the line", Parse),
        new("print: text and bytes come back", Print),
        new("edit: a cached parse equals a fresh one", Edit),
        new("format: idempotent, and the music stays", Format),
        new("import: damaged files are refused in a sentence or read", Import),
        new("check: bind and all checks, findings inside the text", Check),
    ];

    private static string? Parse(string text)
    {
        foreach (var line in SyntaxTree.Parse(text).Lines)
            if (LineRules.Broken(line) is { } trouble)
                return trouble;
        return null;
    }

    private static string? Print(string text)
    {
        if (SyntaxTree.Parse(text).Print() != text)
            return "prints other text";
        var bytes = System.Text.Encoding.Latin1.GetBytes(text);
        return SourceText.From(bytes).ToBytes().AsSpan().SequenceEqual(bytes) ? null : "gives other bytes";
    }

    private static string? Edit(string text)
    {
        var (cache, source) = (new LineCache(), SourceText.From(text));
        SyntaxTree.Parse(source, cache);
        var edited = source.With([new TextEdit(new(text.Length / 2, 0), " 2 D4\n|")]);
        return Meaning.Of(SyntaxTree.Parse(edited, cache)).SequenceEqual(Meaning.Of(SyntaxTree.Parse(edited))) ? null : "a cached parse differs";
    }

    private static string? Format(string text)
    {
        var before = SyntaxTree.Parse(text);
        var once = before.Source.With(Formatter.Format(before));
        if (Formatter.Formatted(once).Text != once.Text)
            return $"format is not idempotent:\n{once}\nthen\n{Formatter.Formatted(once)}";
        var (old, now) = (Meaning.Of(before), Meaning.Of(SyntaxTree.Parse(once)));
        for (var i = 0; i < old.Count; i++)
            if (i >= now.Count || old[i] != now[i])
                return $"format changed the music: {old[i]} became {(i < now.Count ? now[i] : "nothing")}";
        return null;
    }

    // Files of every format, made of the text, then damaged in a way that the text decides; and the text itself.
    private static string? Import(string text)
    {
        var seed = text.Aggregate(17, (h, c) => unchecked(h * 31 + c));
        // Making the files takes longer than reading them: one case in eight, chosen by itself, has its turn.
        if ((seed >> 3 & 7) != 0)
            return null;
        var piece = Binder.Bind(SyntaxTree.Parse(text.Length > 2_000 ? text[..2_000] : text));
        var score = ScoreWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium));
        return Read("MusicXML", () => ScoreReader.Read(Damaged(Encoding.UTF8.GetBytes(score), seed)))
            ?? Read("mxl", () => ScoreReader.Read(Damaged(CompressedScore.Pack(score), seed)))
            ?? Read("MIDI", () => MidiReader.Read(Damaged(MidiWriter.Write(piece), seed)))
            ?? Read("tab text", () => TabReader.Read(Encoding.Latin1.GetString(Damaged(Encoding.Latin1.GetBytes(TabWriter.Write(piece, PlacedPiece.Of(piece, Hand.Medium))), seed))))
            ?? Read("the text as tab text", () => TabReader.Read(text));
    }

    private static string? Read(string format, Func<Imported> read)
    {
        try
        {
            var lesson = LessonWriter.Write(read().Score);
            return Formatter.Formatted(SourceText.From(lesson)).Text == lesson ? null : $"{format} gives an arrangement that is not in its canonical form:\n{lesson}";
        }
        catch (UnreadableScoreException e)
        {
            return e.Message.Length > 0 ? null : $"{format} is refused without a word";
        }
    }

    private static byte[] Damaged(byte[] bytes, int seed)
    {
        if (bytes.Length == 0)
            return bytes;
        var (at, length) = ((int)((uint)seed % (uint)bytes.Length), (seed >> 8 & 7) + 1);
        if ((seed & 1) == 0)
            return [.. bytes[..at], .. bytes[Math.Min(bytes.Length, at + length)..]];
        bytes[at] ^= (byte)(seed >> 16 | 1);
        return bytes;
    }

    private static string? Check(string text)
    {
        foreach (var finding in CheckCatalogue.Run(Binder.Bind(SyntaxTree.Parse(text))))
            if (finding.Span.Start < 0 || finding.Span.End > text.Length)
                return $"{finding.Code} lies outside the text";
        return null;
    }
}

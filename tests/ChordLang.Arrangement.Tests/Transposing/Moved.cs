// Transposes texts and samples for the tests of this folder, and says what is the same music.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;
using ChordLang.Theory.Keys;

namespace ChordLang.Arrangement.Tests.Transposing;

internal static class Moved
{
    public static Piece Bind(string text, ILibrary? library = null) => Binder.Bind(SyntaxTree.Parse(text), library);

    public static Piece Sample(string path) => Bind(Repository.Text(path), new Beside(path));

    public static TransposedPiece By(string text, int semitones) => Bind(text) is var piece ? Transposition.Of(piece, IntervalChoice.By(piece, semitones)) : null!;

    public static TransposedPiece To(string text, string key)
    {
        var piece = Bind(text);
        Assert.True(Key.TryParse(key, out var target));
        return Transposition.Of(piece, Assert.NotNull(IntervalChoice.To(piece, target)));
    }

    /// <summary>The new text, where nothing was lost.</summary>
    public static string Whole(TransposedPiece moved)
    {
        Assert.Equal([], moved.Losses.Select(l => l.Message));
        return moved.Text.Text;
    }

    /// <summary>What is heard and where the hand is, moved by so many semitones: times, pitches, strings, frets, chords.</summary>
    public static IReadOnlyList<string> Music(Piece piece, int by = 0)
    {
        int Class(int pitch) => (((pitch + by) % 12) + 12) % 12;
        string Heard(Note n) => $"{(n.Dead ? "dead" : n.Midi + by)}@{n.String}/{(n.Harmonic || n.Dead ? null : n.Fret + by)} {n.Onset}-{n.End} {n.BendTo?.Midi + by}";
        var events = piece.Events.Select(e => $"{e.Onset} {e.Row} {e.Kind} {string.Join(' ', e.Notes.Select(Heard))} grace {string.Join(' ', e.Grace.Select(Heard))} from {string.Join(' ', e.SlideFrom.Select(Heard))} "
            + $"is {(e.Is is { } c ? Class(c.Root.PitchClass) : null)} {string.Join(' ', e.Marks.Select(m => $"{m.Kind}@{m.String}"))}");
        var chords = piece.Bars.SelectMany(b => b.Chords).Select(c => $"{c.Start} {(c.Chord is { } x ? $"{Class(x.Root.PitchClass)} {c.Symbol!.Suffix} {(x.Bass is { } low ? Class(low.PitchClass) : null)}" : "none")}");
        return [.. events, .. chords];
    }

    /// <summary>Files of a sample's own folder.</summary>
    public sealed class Beside(string path) : ILibrary
    {
        public UsedFile Open(string used, string? usedBy) =>
            new(used, SyntaxTree.Parse(SourceText.From(Repository.Text($"{path[..path.LastIndexOf('/')]}/{used}"))), null);
    }
}

// Asks for the chord root and the slash bass that the key and the chord call for, because a symbol is read before it is heard.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Harmony.Spelling;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>See its page.</summary>
public sealed class ChordSymbolSpelling : Check
{
    /// <inheritdoc/>
    public override string Code => "spelling-chord-symbol";

    /// <inheritdoc/>
    public override string Title => "A chord symbol spelled against the key";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        var keys = SpelledPiece.Keys(piece, WrittenPitchSpelling.SureOfKey);
        foreach (var bar in piece.Bars)
            foreach (var span in bar.Chords)
                if (span is { Carried: false, Chord: { } chord, Symbol: { } symbol } && keys[bar.Index] is { } key)
                {
                    if (RootInKey.Usual(chord.Root, key) is { } root)
                        yield return Found(piece, span, new(span.Span.Start, symbol.Root.Length), root,
                            $"{chord.Root} is far from {key}: this root is usually written {root} there.");
                    if (chord.Bass is { } bass && symbol.Bass is { } written && OfChord(chord, bass) is { } name)
                        yield return Found(piece, span, new(span.Span.End - written.Length, written.Length), name,
                            $"The bass of {chord.Symbol} is the {chord.DegreeOf(bass.PitchClass).Spoken()} of the chord, and that is written {name}.");
                }
    }

    private Finding Found(Piece piece, ChordSpan span, Grammar.Text.Span at, PitchName name, string message) =>
        new(Code, Severity, $"{message} Write {name}: it sounds the same.", at)
        {
            Fixes = SoundsAlike(piece, span, at, name) ? [new($"Write {name}", true, [new(at, name.ToString())])] : [],
            Related = at == span.Span ? [] : [new("in this symbol", span.Span, null)],
        };

    // A suffix may read otherwise behind another root: G#b5 is not Abb5.
    private static bool SoundsAlike(Piece piece, ChordSpan span, Grammar.Text.Span at, PitchName name)
    {
        var (written, from) = (piece.Tree.Source[span.Span], at.Start - span.Span.Start);
        return ChordReader.Read(written[..from] + name + written[(from + at.Length)..]).Chord is { } chord && Sound(chord).SequenceEqual(Sound(span.Chord!));
    }

    private static IEnumerable<int> Sound(Chord chord) => chord.Tones.Select(t => t.Name.PitchClass).Prepend(chord.Bass?.PitchClass ?? -1);

    private static PitchName? OfChord(Chord chord, PitchName bass)
    {
        foreach (var tone in chord.Tones)
            if (tone.Name.PitchClass == bass.PitchClass && tone.Name != bass && Math.Abs(tone.Name.Alteration) <= 1 && !RootInKey.IsRare(tone.Name))
                return tone.Name;
        return null;
    }
}

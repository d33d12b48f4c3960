// Asks for the chord root and the slash bass that the key and the chord call for, because a symbol is read before it is heard.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Spelling;

/// <summary>See its page.</summary>
public sealed class ChordSymbolSpelling : Check
{
    // On the line of fifths from the middle of the signature: a leading-tone diminished chord lies up to 7 to the sharp side (C#dim7 and
    // G#dim7 in C), the substitute for the subdominant's dominant 8 to the flat side (Gb7 in C). Farther off the other name is the usual one.
    private const int SharpSide = 7, FlatSide = 8;

    /// <inheritdoc/>
    public override string Code => "spelling-chord-symbol";

    /// <inheritdoc/>
    public override string Title => "A chord symbol spelled against the key";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Hint;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece)
    {
        foreach (var bar in piece.Bars)
            foreach (var span in bar.Chords)
                if (span is { Carried: false, Chord: { } chord, Symbol: { } symbol } && bar.Settings.Key is { } key)
                {
                    if (Usual(chord.Root, key) is { } root)
                        yield return Found(span, new(span.Span.Start, symbol.Root.Length), root,
                            $"{chord.Root} is far from {key}: this root is usually written {root} there.");
                    if (chord.Bass is { } bass && symbol.Bass is { } written && OfChord(chord, bass) is { } name)
                        yield return Found(span, new(span.Span.End - written.Length, written.Length), name,
                            $"The bass of {chord.Symbol} is the {chord.DegreeOf(bass.PitchClass).Spoken()} of the chord, and that is written {name}.");
                }
    }

    private Finding Found(ChordSpan span, Grammar.Text.Span at, PitchName name, string message) =>
        new(Code, Severity, $"{message} Write {name}: it sounds the same.", at)
        {
            Fixes = [new($"Write {name}", true, [new(at, name.ToString())])],
            Related = at == span.Span ? [] : [new("in this symbol", span.Span, null)],
        };

    private static PitchName? Usual(PitchName root, Key key)
    {
        var away = root.Fifths - (key.Fifths + 2);
        var other = key.Spell(root.PitchClass);
        return other != root && Math.Abs(other.Alteration) <= 1 && !IsRare(other) && (away > SharpSide || away < -FlatSide) ? other : null;
    }

    // Charts avoid these as roots outside the keys that hold them (common practice).
    private static bool IsRare(PitchName name) => name.ToString() is "E#" or "B#" or "Cb" or "Fb";

    private static PitchName? OfChord(Chord chord, PitchName bass)
    {
        foreach (var tone in chord.Tones)
            if (tone.Name.PitchClass == bass.PitchClass && tone.Name != bass && Math.Abs(tone.Name.Alteration) <= 1 && !IsRare(tone.Name))
                return tone.Name;
        return null;
    }
}

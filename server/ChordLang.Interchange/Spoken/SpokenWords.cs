// How pitches, counts, lengths and chord symbols are said aloud. The wording is stable: people learn to listen for it.
using System.Text;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Spoken;

/// <summary>Words for reading aloud.</summary>
public static class SpokenWords
{
    private static readonly string[] Numbers = ["no", "1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th", "10th", "11th", "12th", "13th"];

    /// <summary><c>E flat 4</c>.</summary>
    public static string Of(Pitch pitch) => $"{Of(pitch.Name)} {pitch.Octave}";

    /// <summary><c>E flat</c>, <c>F double sharp</c>.</summary>
    public static string Of(PitchName name) => name.Letter + Accidental(name.Alteration);

    /// <summary>A count as it is counted: <c>2 and</c>, <c>3 e</c>, <c>1 trip</c>, <c>3 plus 2/5</c>.</summary>
    public static string Count(Rational offset)
    {
        var written = CountSyntax.Write(offset);
        var digits = written.TakeWhile(char.IsAsciiDigit).Count();
        return written[..digits] + written[digits..] switch { "" => "", "&" => " and", var rest when rest[0] == '+' => $" plus {rest[1..]}", var rest => $" {rest}" };
    }

    /// <summary>A length in counts: <c>1 count</c>, <c>1/2 count</c>, <c>2 and 1/3 counts</c>.</summary>
    public static string Length(Rational counts)
    {
        var rest = counts - Rational.Of(counts.Floor);
        return counts <= Rational.One ? $"{counts} count" : rest == Rational.Zero ? $"{counts.Floor} counts" : $"{counts.Floor} and {rest} counts";
    }

    /// <summary>A chord by its tones' names for reading: <c>G 7 flat 9</c>, <c>F sharp minor 7 flat 5 over C</c>.</summary>
    public static string Of(Chord chord, SymbolSyntax symbol)
    {
        var text = new StringBuilder(Of(chord.Root));
        var suffix = symbol.Suffix;
        for (var at = 0; at < suffix.Length;)
        {
            var (sign, word) = Signs.FirstOrDefault(x => string.CompareOrdinal(suffix, at, x.Sign, 0, x.Sign.Length) == 0);
            var digits = suffix.AsSpan(at).IndexOfAnyExceptInRange('0', '9') is var d && d < 0 ? suffix.Length - at : d;
            if (sign is not null)
                text.Append(' ').Append(word);
            else if (digits > 0)
                text.Append(' ').Append(suffix, at, digits);
            else if (suffix[at] is not ('(' or ')' or ',' or '/' or '[' or ']'))
                text.Append(' ').Append(suffix[at]);
            at += sign?.Length ?? Math.Max(1, digits);
        }
        return chord.Bass is { } bass ? text.Append(" over ").Append(Of(bass)).ToString() : text.ToString();
    }

    /// <summary><c>2nd</c>.</summary>
    public static string Ordinal(int number) => number < Numbers.Length ? Numbers[number] : $"{number}th";

    // Longest first: "maj" before "m".
    private static readonly (string Sign, string Word)[] Signs =
    [
        ("maj", "major"), ("Maj", "major"), ("MA", "major"), ("min", "minor"), ("mi", "minor"), ("MI", "minor"), ("ma", "major"), ("M", "major"), ("m", "minor"), ("-", "minor"),
        ("Δ", "major 7"), ("ø", "half diminished"), ("°", "diminished"), ("dim", "diminished"), ("aug", "augmented"), ("+", "augmented"),
        ("sus", "suspended"), ("add", "added"), ("alt", "altered"), ("omit", "no"), ("no", "no"), ("o", "diminished"), ("♭", "flat"), ("♯", "sharp"), ("b", "flat"), ("#", "sharp"),
    ];

    // A fret under a chord of many sharps can take more than anybody writes: then each is said.
    private static string Accidental(int alteration) => Math.Abs(alteration) switch
    {
        0 => "", 1 => "", 2 => " double", 3 => " triple", 4 => " quadruple", var many => $" {many} times",
    } + (alteration switch { 0 => "", > 0 => " sharp", _ => " flat" });
}

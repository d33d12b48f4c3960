// The spoken text is complete: a listener who writes down the sentences gets the music back.
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Spoken;
using ChordLang.Testing;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Tests.Spoken;

public sealed partial class DescriberTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Pitches_strings_frets_and_rhythm_are_rebuilt_from_the_words(string sample)
    {
        var piece = Sample.Bind(sample);
        var placed = PlacedPiece.Of(piece, Hand.Medium);
        var words = string.Join('\n', Describer.Whole(piece, placed).Select(s => s.Text.Replace('\n', ' ')));
        Assert.Equal(Wanted(piece, placed).Order(StringComparer.Ordinal), Heard(words).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("G7b9", "G 7 flat 9")]
    [InlineData("F#m7b5/C", "F sharp minor 7 flat 5 over C")]
    [InlineData("Ebmaj7", "E flat major 7")]
    [InlineData("C13(b9,#11)", "C 13 flat 9 sharp 11")]
    [InlineData("Bb6/9", "B flat 6 9")]
    [InlineData("Dsus4", "D suspended 4")]
    [InlineData("Ao7", "A diminished 7")]
    [InlineData("C-7", "C minor 7")]
    [InlineData("CΔ", "C major 7")]
    public void Symbols_are_said_as_players_say_them(string symbol, string spoken)
    {
        var chart = Assert.IsType<ChartLine>(SyntaxTree.Parse("| " + symbol).Lines[0]);
        Assert.Equal(spoken, SpokenWords.Of(ChordReader.Read(symbol).Chord!, chart.Bars[0].Items[0].Symbol!));
    }

    [Theory]
    [InlineData(0, 1, "1")]
    [InlineData(3, 2, "2 and")]
    [InlineData(7, 3, "3 trip")]
    [InlineData(15, 4, "4 a")]
    [InlineData(12, 5, "3 plus 2/5")]
    public void Counts_are_said_as_they_are_counted(int numerator, int denominator, string spoken) =>
        Assert.Equal(spoken, SpokenWords.Count(Rational.Of(numerator, denominator)));

    // bar, count, voice or row, length in counts, then each note with its string and fret.
    private static IEnumerable<string> Wanted(Piece piece, PlacedPiece placed)
    {
        var places = placed.Events.ToDictionary(e => e.Event, ReferenceEqualityComparer.Instance as IEqualityComparer<Event>);
        foreach (var bar in piece.Bars)
            foreach (var row in bar.Rows)
                foreach (var e in row.Events)
                {
                    var notes = e.Kind != EventKind.Struck ? e.Kind.ToString() : string.Join(' ', e.Notes.Select(n =>
                        places.GetValueOrDefault(e)?.Notes.FirstOrDefault(p => ReferenceEquals(p.Note, n)) is { } p ? $"{n.Pitch}@{p.String}:{p.Fret}" : $"{n.Pitch}@{n.String}:{n.Fret}"));
                    yield return $"{bar.Number} {e.Offset} {row.Voice ?? $"{(bar.Rows.Length > 1 ? row.Number : 1)}"} {(e.End - e.Onset) / bar.Settings.Meter.Count} {notes}";
                }
    }

    private static IEnumerable<string> Heard(string words)
    {
        var bar = -1;
        foreach (var line in words.Split('\n'))
            if (BarWords().Match(line) is { Success: true } heading)
                bar = heading.Groups["number"].Success ? int.Parse(heading.Groups["number"].Value) : 0;
            else if (EventWords().Match(line) is { Success: true } m)
            {
                var what = m.Groups["what"].Value switch
                {
                    "rest" => "Rest", "the sound before goes on" => "Tied",
                    var notes => string.Join(' ', NoteWords().Matches(notes).Select(n => $"{Pitch(n.Groups["pitch"].Value)}@{n.Groups["string"].Value}:{(n.Groups["fret"].Success ? n.Groups["fret"].Value : "0")}")),
                };
                yield return $"{bar} {Count(m.Groups["count"].Value)} {(m.Groups["voice"].Success ? m.Groups["voice"].Value : m.Groups["row"].Success ? m.Groups["row"].Value : "1")} {Counts(m.Groups["length"].Value)} {what}";
            }
    }

    private static Rational Count(string words)
    {
        var parts = words.Split(' ');
        var beyond = parts.Length == 1 ? Rational.Zero : parts[1] switch
        {
            "and" => Rational.Of(1, 2), "e" => Rational.Of(1, 4), "a" => Rational.Of(3, 4), "trip" => Rational.Of(1, 3), "let" => Rational.Of(2, 3), _ => Fraction(parts[2]),
        };
        return Rational.Of(int.Parse(parts[0]) - 1) + beyond;
    }

    private static Rational Counts(string words) => words.Split(" and ").Select(Fraction).Aggregate((a, b) => a + b);

    private static Rational Fraction(string text) => text.Split('/') is [var n, var d] ? Rational.Of(int.Parse(n), int.Parse(d)) : Rational.Of(int.Parse(text));

    private static Pitch Pitch(string words)
    {
        var parts = words.Split(' ');
        var by = (parts.Contains("double") ? 2 : parts.Contains("triple") ? 3 : 1) * (parts.Contains("sharp") ? 1 : parts.Contains("flat") ? -1 : 0);
        return new(new(Enum.Parse<Letter>(parts[0]), by), int.Parse(parts[^1]));
    }

    [GeneratedRegex("^(Bar (?<number>[0-9]+)|Pickup)[,:]")]
    private static partial Regex BarWords();

    [GeneratedRegex("^Count (?<count>[0-9][^,:]*)(, voice (?<voice>[^:]+)|, (?<row>[0-9]+)[a-z]+ row)?: (?<what>.*?); for (?<length>[0-9/]+( and [0-9/]+)?) counts?[.;]")]
    private static partial Regex EventWords();

    [GeneratedRegex("(?<pitch>[A-G]( (double |triple )?(sharp|flat))? [0-9]) on string (?<string>[0-9])( fret (?<fret>[0-9]+)| open)")]
    private static partial Regex NoteWords();
}

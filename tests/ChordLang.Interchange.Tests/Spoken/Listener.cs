// One who listens to a description and writes down what is heard: it shares no code with the one who speaks.
using System.Globalization;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Placing;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.Tests.Spoken;

/// <summary>Hears sentences.</summary>
internal static partial class Listener
{
    /// <summary>What a piece is: bar, count, voice or row, length in counts, then each note with its string and fret.</summary>
    public static IEnumerable<string> Wanted(Piece piece, PlacedPiece placed)
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

    /// <summary>The same, from the words alone.</summary>
    public static IEnumerable<string> Heard(string words)
    {
        var bar = -1;
        foreach (var line in words.Split('\n'))
            if (BarWords().Match(line) is { Success: true } heading)
                bar = heading.Groups["number"].Success ? Number(heading.Groups["number"].Value) : 0;
            else if (EventWords().Match(line) is { Success: true } m)
            {
                var what = m.Groups["what"].Value switch
                {
                    "rest" => "Rest", "the sound before goes on" => "Tied", "not understood" => "Unbound",
                    var notes => string.Join(' ', NoteWords().Matches(notes).Select(n => $"{Pitch(n.Groups["pitch"].Value)}@{n.Groups["string"].Value}:{(n.Groups["nowhere"].Success ? "" : n.Groups["fret"].Success ? n.Groups["fret"].Value : "0")}")),
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
        return Rational.Of(Number(parts[0]) - 1) + beyond;
    }

    private static Rational Counts(string words) => words.Split(" and ").Select(Fraction).Aggregate((a, b) => a + b);

    private static Rational Fraction(string text) => text.Split('/') is [var n, var d] ? Rational.Of(Number(n), Number(d)) : Rational.Of(Number(text));

    private static Pitch Pitch(string words)
    {
        var parts = words.Split(' ');
        var by = (parts.Contains("double") ? 2 : parts.Contains("triple") ? 3 : parts.Contains("quadruple") ? 4 : parts.Contains("times") ? Number(parts[1]) : 1) * (parts.Contains("sharp") ? 1 : parts.Contains("flat") ? -1 : 0);
        return new(new(Enum.Parse<Letter>(parts[0]), by), Number(parts[^1]));
    }

    [GeneratedRegex("^(Bar (?<number>[0-9]+)|Pickup)[,:]")]
    private static partial Regex BarWords();

    [GeneratedRegex("^Count (?<count>[0-9][^,:]*)(, voice (?<voice>[^:]+)|, (?<row>[0-9]+)[a-z]+ row)?: (?<what>.*?); for (?<length>[0-9/]+( and [0-9/]+)?) counts?[.;]")]
    private static partial Regex EventWords();

    [GeneratedRegex("(?<pitch>[A-G]( (double |triple |quadruple |[0-9]+ times )?(sharp|flat))? -?[0-9]+)( on string (?<string>[0-9])( fret (?<fret>[0-9]+)| open|(?<nowhere> without a fret))|(?<nowhere> without a place on the neck))")]
    private static partial Regex NoteWords();

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);
}

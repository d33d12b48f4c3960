// Offers other names for a sound whose own name does not fit.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Harmony.Naming;
using ChordLang.Theory.Chords;

namespace ChordLang.Checks.Names;

/// <summary>Renames of a sonority.</summary>
internal static class Renames
{
    /// <summary>No more are offered.</summary>
    public const int Most = 2;

    private const double LeastScore = 0.03;

    /// <summary>At most two fixes, likeliest name first. None is safe: they keep the sound and change what the chart says.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="sonority">What sounds.</param>
    /// <param name="sameRoot">Whether names of the root that the chart gives come first: a chord that only lacks a tone is still on its root.</param>
    public static ImmutableArray<Fix> Of(Piece piece, Sonority sonority, bool sameRoot = false)
    {
        var context = new NamingContext(sonority.Bar.Settings.Key, Spelled: sonority.Tones.All(t => t.Note.PitchWritten));
        var names = SoundNamer.Name([.. sonority.Tones.Select(t => t.Note.Pitch)], context);
        return
        [
            .. names.Readings.Where(r => r.Score >= LeastScore && r.Chord is { } c && r.Symbol != sonority.Chord.Symbol && Bears(c, sonority))
                .OrderByDescending(r => sameRoot && r.Root.PitchClass == sonority.Chord.Root.PitchClass).Take(Most).SelectMany(r => To(piece, sonority, r.Symbol)),
        ];
    }

    /// <summary>The symbol of the same root that names all that sounds, or null where none does.</summary>
    public static string? Fuller(Sonority sonority)
    {
        var chord = sonority.Chord;
        var names = SoundNamer.Name([.. sonority.Tones.Select(t => t.Note.Pitch)], new(Chart: chord));
        return names.Readings.FirstOrDefault(r => r.Root.PitchClass == chord.Root.PitchClass && r.Chord is { } full && r.Symbol != chord.Symbol
            && chord.Tones.All(t => t.Role != ToneRole.Essential || full.Tones.Any(f => f.Degree.Interval == t.Degree.Interval))
            && Fit.Of(full, true, sonority.Tones.Select(t => t.Note.Midi), sonority.Heard) is { Foreign.IsEmpty: true, Missing.IsEmpty: true })?.Symbol;
    }

    /// <summary>The fix that gives the sound another name: on the chart where nothing else stands under the symbol, else behind the sound.</summary>
    public static IEnumerable<Fix> To(Piece piece, Sonority sonority, string symbol)
    {
        // A name with more accidentals than anybody reads is none.
        if (ChordReader.Read(symbol).Chord is null)
            yield break;
        if (sonority.Is is { Operand: { } operand })
        {
            if (!sonority.Event.Repeated)
                yield return new($"Call it {symbol}", false, [new(piece.Tree.Absolute(sonority.Event.Line, operand.Span), symbol)]);
        }
        else if (sonority.Stretch is { } stretch && IsAlone(piece, stretch, sonority))
            yield return new($"Call it {symbol} on the chart", false, [new(stretch.First.Span, symbol)]);
        else if (sonority.Event.Syntax is { } played)
            yield return new($"Call this sound {symbol}", false, [new(new(piece.Tree.Absolute(sonority.Event.Line, played.Span).End, 0), $" is {symbol}")]);
    }

    private static bool Bears(Chord chord, Sonority sonority) =>
        Fit.Of(chord, sonority.Strict, sonority.Tones.Where(t => t.Blamable).Select(t => t.Note.Midi), sonority.Heard) is { Foreign.IsEmpty: true, Missing.IsEmpty: true };

    private static bool IsAlone(Piece piece, ChordStretch stretch, Sonority sonority)
    {
        foreach (var moment in piece.Moments)
            if (moment.Time >= stretch.End)
                break;
            else if (moment.Time >= stretch.Start && moment.Time != sonority.Time && moment.Events.Any(e => e.Notes.Length >= 3))
                return false;
        return !stretch.First.Carried && stretch.First.Symbol is not null;
    }
}

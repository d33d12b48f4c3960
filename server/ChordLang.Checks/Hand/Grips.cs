// Collects what the left hand has to hold at one time, from all rows, and finds the fingers for it once for all checks.
using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using LeftHand = ChordLang.Fretboard.Hands.Hand;

namespace ChordLang.Checks.Hand;

/// <summary>Notes struck together, as one grip.</summary>
/// <param name="Moment">When they are struck.</param>
/// <param name="Bar">The bar.</param>
/// <param name="Event">The event with the most of the notes; findings speak of it.</param>
/// <param name="Notes">The placed notes, lowest first; at least one. Harmonics are touched, not held, and left out.</param>
/// <param name="Voicing">The grip.</param>
internal sealed record HeldGrip(Moment Moment, Bar Bar, Event Event, ImmutableArray<Heard> Notes, Voicing Voicing)
{
    /// <summary>Where the frets lie.</summary>
    public Neck Neck => Bar.Settings.Neck;

    /// <summary>The hand in force: the declared one, else the player's own.</summary>
    public LeftHand Hand => HeldGrips.HandOf(Bar.Settings);

    /// <summary>True where it is only struck again, so that findings belong elsewhere.</summary>
    public bool Repeated => Moment.Events.All(e => e.Repeated);

    /// <summary>The strings that the left hand holds down, highest first.</summary>
    public ImmutableArray<int> Fretted => [.. Notes.Where(h => h.Note.Fret > 0).Select(h => h.Note.String!.Value).Order()];
}

/// <summary>All grips of a piece, and the fingers for any.</summary>
internal sealed class HeldGrips
{
    // Several checks ask for the same work on the same piece; it is kept as long as the piece is.
    private static readonly ConditionalWeakTable<Piece, HeldGrips> Kept = [];

    private const int MostKept = 8192;

    // The easiest fingers of a grip hang on no piece: an edit finds them again. When full, all is forgotten and begun anew.
    private static readonly ConcurrentDictionary<(Neck, (int, int)?, LeftHand, Voicing), FingeringAnswer> Free = [];

    private readonly ConcurrentDictionary<(Neck, (int, int)?, LeftHand, Voicing, Fingers), FingeringAnswer> known = [];

    private static readonly ConcurrentDictionary<(Neck, (int, int)?, LeftHand, Voicing, Voicing, int), KeptFingers?> Stayed = [];

    private readonly Dictionary<Rational, HeldGrip> at = [];

    private HeldGrips(Piece piece)
    {
        All = [.. Collect(piece)];
        foreach (var grip in All)
            at.TryAdd(grip.Moment.Time, grip);
    }

    /// <summary>Every grip, in the order of time.</summary>
    public ImmutableArray<HeldGrip> All { get; }

    /// <summary>The grip struck at a time, or null.</summary>
    public HeldGrip? At(Rational time) => at.GetValueOrDefault(time);

    /// <summary>Those of a piece.</summary>
    public static HeldGrips Of(Piece piece) => Kept.GetValue(piece, p => new(p));

    /// <summary>The hand that settings declare, else the player's own.</summary>
    public static LeftHand HandOf(Settings settings) =>
        settings.Reach is (var from, var to) ? settings.Hand.Calibrated(settings.Neck, from, to) : settings.Hand;

    /// <summary>The best fingers of a voicing under these settings, or the proof that there are none.</summary>
    public FingeringAnswer Fingering(Settings settings, Voicing voicing, Fingers? given = null)
    {
        if (given is not null)
            return known.GetOrAdd((settings.Neck, settings.Reach, settings.Hand, voicing, given), _ => FingeringSearch.Best(settings.Neck, HandOf(settings), voicing, given));
        var asked = (settings.Neck, settings.Reach, settings.Hand, voicing);
        if (Free.TryGetValue(asked, out var answer))
            return answer;
        if (Free.Count >= MostKept)
            Free.Clear();
        return Free[asked] = FingeringSearch.Best(settings.Neck, HandOf(settings), voicing);
    }

    /// <summary>How to take a grip so that the fingers on some strings (bits, string 1 the lowest) can stay when another follows; null where there is no way.</summary>
    public static KeptFingers? Keeping(Settings settings, Voicing first, Voicing then, int strings)
    {
        if (Stayed.Count >= MostKept)
            Stayed.Clear();
        return Stayed.GetOrAdd((settings.Neck, settings.Reach, settings.Hand, first, then, strings), _ => KeptFingers.Of(settings.Neck, HandOf(settings), first, then,
            [.. Enumerable.Range(1, first.Strings).Where(s => (strings >> (s - 1) & 1) != 0)]));
    }

    /// <summary>The best fingers of a grip.</summary>
    public FingeringAnswer Fingering(HeldGrip grip) => Fingering(grip.Bar.Settings, grip.Voicing);

    private static IEnumerable<HeldGrip> Collect(Piece piece)
    {
        foreach (var moment in piece.Moments)
        {
            var bar = piece.Bars[moment.Bar];
            var strings = bar.Settings.Neck.Tuning.Strings;
            var notes = moment.Struck.Where(h => h.Note is { String: { } s, Fret: not null, Harmonic: false } && s >= 1 && s <= strings)
                .GroupBy(h => h.Note.String).Select(g => g.First()).OrderBy(h => h.Note.Midi).ToImmutableArray();
            if (notes.IsEmpty)
                continue;
            var slots = new int?[strings];
            foreach (var (note, _) in notes)
                slots[^note.String!.Value] = note.Fret;
            yield return new(moment, bar, moment.Events.MaxBy(e => e.Notes.Length)!, notes, new([.. slots]));
        }
    }
}

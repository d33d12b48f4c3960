// Counts, bar by bar, what the left hand has to do: how far it opens and travels, which fingers move, what it holds meanwhile.
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Hand;
using ChordLang.Checks.Ringing;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using Digit = ChordLang.Fretboard.Hands.Finger;

namespace ChordLang.Checks.Practice;

/// <summary>A bar with its numbers.</summary>
/// <param name="Bar">The bar.</param>
/// <param name="Numbers">What it asks of the hand.</param>
/// <param name="Content">What is played in it; equal for bars that are played alike.</param>
internal sealed record BarNumbers(Bar Bar, PracticeNumbers Numbers, string Content)
{
    private const double AssumedTempo = 60; // ours: slow enough that speed alone makes no bar hard

    /// <summary>All bars in which a placed note is struck, in order.</summary>
    public static IEnumerable<BarNumbers> Of(Piece piece)
    {
        var hand = new HandOnItsWay();
        var grips = HeldGrips.Of(piece);
        foreach (var group in grips.All.GroupBy(g => g.Bar))
        {
            var settings = group.Key.Settings;
            var tempo = settings.BeatsPerMinute ?? AssumedTempo;
            var numbers = new PracticeNumbers
            {
                Seconds = Math.Max(0.05, (group.Key.Length / settings.Meter.Beat).Value * 60 / tempo), Tempo = tempo, Assumed = settings.BeatsPerMinute is null || settings.Rubato,
                AtEase = HeldGrips.HandOf(settings).Comfortable(Digit.First, Digit.Little),
            };
            hand.Begin();
            foreach (var grip in group)
            {
                numbers = hand.Add(piece, grip, numbers, 60 / tempo / settings.Meter.Beat.Value);
                if (grips.Fingering(grip).None is { Obstacle: not FingeringObstacle.GivenFingers })
                    numbers = numbers with { Beyond = numbers.Beyond ?? group.Key.OffsetOf(grip.Moment.Time) };
            }
            yield return new(group.Key, numbers, Played(group));
        }
    }

    // Marks are part of it: what is told to ring has to be held, even where it is no longer than it would be.
    private static string Played(IGrouping<Bar, HeldGrip> bar) =>
        $"{bar.Key.Settings} " + string.Join(' ', bar.SelectMany(g => g.Notes.Select(h => $"{g.Bar.OffsetOf(g.Moment.Time)}:{h.Note.String}:{h.Note.Fret}:{h.Note.WantedEnd - h.Note.Onset}:{string.Join('.', h.Source.Marks.Select(m => $"{m.Kind}{m.String}"))}")));

    // What is remembered from grip to grip, over bar lines.
    private sealed class HandOnItsWay
    {
        private readonly Dictionary<int, int> last = [];
        private (int Lowest, int Highest)? positions;
        private Rational since = Rational.Zero;
        private Fretboard.Necks.Neck? neck;

        /// <summary>Each bar is practised by itself: its first grip is set anew.</summary>
        public void Begin() => last.Clear();

        public PracticeNumbers Add(Piece piece, HeldGrip grip, PracticeNumbers n, double secondsOfWhole)
        {
            // Who has had nothing to set for more than a bar has long arrived.
            if (neck != grip.Neck || grip.Moment.Time - since > grip.Bar.Length)
                (neck, positions) = (grip.Neck, null);
            var sounding = Holds.Of(piece).SoundingOn(grip.Moment).Where(h => h.String <= grip.Voicing.Strings && grip.Voicing[h.String] is null && !h.Note.Harmonic).ToList();
            var all = Holds.Grip(grip.Moment, grip.Voicing.Strings, sounding).Voicing;
            var at = grip.Bar.OffsetOf(grip.Moment.Time);
            n = n with
            {
                Strikes = n.Strikes + 1, Fingers = Math.Max(n.Fingers, all.FingersNeeded()), Changes = n.Changes + Changed(grip.Voicing).FingersNeeded(),
                Holds = n.Holds + sounding.Count(h => h.Note.Fret > 0), OpenHolds = n.OpenHolds + sounding.Count(h => h.Note.Fret == 0),
            };
            if (all.OuterFrets() is (var low, var high) && all.Span(grip.Neck) is var span && (span > n.Span || n.Frets.High == 0))
                n = n with { Span = span, Frets = (low, high), SpanAt = at };
            return grip.Voicing.OuterFrets() is null ? n : Travelled(grip, n, at, secondsOfWhole);
        }

        // The hand goes no further than it must: from one range of positions to the nearest end of the next.
        private PracticeNumbers Travelled(HeldGrip grip, PracticeNumbers n, Rational at, double secondsOfWhole)
        {
            var (low, high) = grip.Voicing.OuterFrets()!.Value;
            var to = Shift.Positions(low, high);
            if (positions is { } from && Shift.Between(grip.Neck, from, to) is { } shift)
            {
                n = n with { Travel = n.Travel + shift.Millimetres };
                if (n.Shift is null || shift.Millimetres > n.Shift.Millimetres)
                    n = n with { Shift = shift, ShiftAt = at, ShiftSeconds = (grip.Moment.Time - since).Value * secondsOfWhole };
                positions = (shift.To, shift.To);
            }
            else
                positions = positions is (var l, var h) ? (Math.Max(l, to.Lowest), Math.Min(h, to.Highest)) : to;
            since = grip.Moment.Time;
            return n;
        }

        // The strings on which another fret is held than when they were struck last.
        private Voicing Changed(Voicing voicing)
        {
            var slots = new int?[voicing.Strings];
            foreach (var s in voicing.Played)
            {
                if (voicing[s] is > 0 and var fret && !(last.TryGetValue(s, out var before) && before == fret))
                    slots[^s] = fret;
                last[s] = voicing[s]!.Value;
            }
            return new([.. slots]);
        }
    }
}

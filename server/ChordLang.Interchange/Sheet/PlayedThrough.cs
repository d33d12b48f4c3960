// A piece as it is heard: played through by its form, every note at its second.
using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;

namespace ChordLang.Interchange.Sheet;

/// <summary>A bar as it is played; times are seconds.</summary>
/// <param name="Index">Its place in <see cref="Piece.Bars"/>.</param>
/// <param name="Start">When it starts.</param>
/// <param name="Length">How long it lasts.</param>
/// <param name="Click">From one beat of a count-in to the next.</param>
/// <param name="Lead">How long the count-in before it takes: a full bar, and what a pickup leaves out.</param>
/// <param name="Clicks">Beats in a full bar.</param>
public sealed record PlayedBar(int Index, double Start, double Length, double Click, double Lead, int Clicks);

/// <summary>A note as it is played; times are seconds.</summary>
/// <param name="Onset">When it is struck.</param>
/// <param name="Duration">How long it sounds, its ring included.</param>
/// <param name="Midi">MIDI number.</param>
/// <param name="Voice">Place in <see cref="PlayedThrough.Voices"/>.</param>
/// <param name="Bar">Place in <see cref="PlayedThrough.Bars"/>.</param>
/// <param name="Level">Loudness, 1 to 127.</param>
/// <param name="From">Where its text begins, as in the drawing's <c>data-from</c>.</param>
/// <param name="Bend">MIDI number that it is bent to, or 0.</param>
public sealed record PlayedNote(double Onset, double Duration, int Midi, int Voice, int Bar, int Level, int From, int Bend);

/// <summary>The whole: repeats, endings and leaps played through, each bar at its written tempo, free time at the tempo it is said to be around.</summary>
/// <param name="Voices">Names of the voices.</param>
/// <param name="Bars">Bars in the order played.</param>
/// <param name="Notes">Notes by onset, dead ones left out.</param>
public sealed record PlayedThrough(ImmutableArray<string> Voices, ImmutableArray<PlayedBar> Bars, ImmutableArray<PlayedNote> Notes)
{
    // Standard MIDI Files 1.0 take 120 where no tempo is written; so does the exported file.
    private const double UsualTempo = 120;

    // Judgement: a grace note takes a 32nd note of the time before the beat.
    private static readonly Rational Grace = Rational.Of(1, 32);

    /// <summary>What a piece sounds.</summary>
    public static PlayedThrough Of(Piece piece)
    {
        var played = MidiWriter.Played(piece);
        var bars = ImmutableArray.CreateBuilder<PlayedBar>(played.Count);
        var second = 0.0;
        foreach (var (bar, _) in played)
        {
            var (meter, whole) = (bar.Settings.Meter, Whole(bar.Settings));
            var step = meter.Compound ? 3 : 1;
            bars.Add(new(bar.Index, second, bar.Length.Value * whole, (meter.Count * Rational.Of(step)).Value * whole, (meter.Length + bar.From * meter.Count).Value * whole, meter.Counts / step));
            second += bars[^1].Length;
        }
        var voices = VoicesOf(piece);
        var notes = new List<PlayedNote>();
        for (var i = 0; i < played.Count; i++)
        {
            var (bar, start) = played[i];
            var at = i;
            foreach (var e in bar.Rows.SelectMany(r => r.Events).Where(e => e.Kind == EventKind.Struck))
            {
                foreach (var grace in e.Grace)
                    Add(grace, e.Onset - Grace, e.Onset, e);
                foreach (var note in e.Notes.Where(n => !n.Dead))
                    Add(note, note.Onset, note.End, e);
            }

            void Add(Note note, Rational onset, Rational end, Event e)
            {
                if (note.Midi is < 0 or > 127 || end <= onset)
                    return;
                var shift = start - bar.Start;
                var struck = Math.Max(0, Second(played, bars, at, onset + shift));
                notes.Add(new(struck, Second(played, bars, at, end + shift) - struck, note.Midi, voices.IndexOf(e.VoiceKey), at, MidiWriter.Velocity(e), note.Span.Start,
                    note.BendTo is { } to && !e.Grace.Contains(note) ? to.Midi : 0));
            }
        }
        return new(voices, bars.ToImmutable(), [.. notes.OrderBy(n => n.Onset).ThenBy(n => n.Midi)]);
    }

    /// <summary>Names of the voices of a piece, in the order in which they come in.</summary>
    public static ImmutableArray<string> VoicesOf(Piece piece) => [.. piece.Bars.SelectMany(b => b.Rows).Select(r => r.VoiceKey).Distinct()];

    /// <summary>As JSON that can stand inside of an HTML element.</summary>
    public string Json()
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, new() { Encoder = JavaScriptEncoder.Default }))
        {
            json.WriteStartObject();
            json.WriteStartArray("voices");
            foreach (var voice in Voices)
                json.WriteStringValue(voice);
            json.WriteEndArray();
            json.WriteStartArray("bars");
            foreach (var b in Bars)
                Row(json, b.Index, b.Start, b.Length, b.Click, b.Lead, b.Clicks);
            json.WriteEndArray();
            json.WriteStartArray("notes");
            foreach (var n in Notes)
                Row(json, n.Onset, n.Duration, n.Midi, n.Voice, n.Bar, n.Level, n.From, n.Bend);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Row(Utf8JsonWriter json, params ReadOnlySpan<double> values)
    {
        json.WriteStartArray();
        foreach (var value in values)
            json.WriteNumberValue(Math.Round(value, 5));
        json.WriteEndArray();
    }

    private static double Whole(Settings settings) => 60 / (settings.BeatsPerMinute ?? UsualTempo) / settings.Meter.Beat.Value;

    // A time that lies in another bar than the one it belongs to: what rings goes through the tempos of the bars that are played then.
    private static double Second(IReadOnlyList<(Bar Bar, Rational Start)> played, ImmutableArray<PlayedBar>.Builder bars, int near, Rational time)
    {
        while (near > 0 && time < played[near].Start)
            near--;
        while (near < played.Count - 1 && time >= played[near + 1].Start)
            near++;
        return bars[near].Start + (time - played[near].Start).Value * Whole(played[near].Bar.Settings);
    }
}

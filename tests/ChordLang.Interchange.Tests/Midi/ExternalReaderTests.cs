// MIDI files read by npm midi-file, whose version tests/External pins: the same onsets, sounds and lengths.
using System.Diagnostics;
using System.Text.Json;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.Midi;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Midi;

[Trait("Needs", "npm")]
public sealed class ExternalReaderTests
{
    public static TheoryData<string> Samples => [.. Repository.Samples("valid")];

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_library_that_is_not_ours_reads_the_same_music(string sample)
    {
        var piece = Sample.Bind(sample);
        var file = Read(MidiWriter.Write(piece));
        Assert.Equal(1, file.GetProperty("format").GetInt32());
        Assert.Equal(1 + piece.Bars.SelectMany(b => b.Rows).Select(r => r.VoiceKey).Distinct().Count(), file.GetProperty("tracks").GetInt32());
        var ticks = file.GetProperty("ticks").GetInt32();
        var got = file.GetProperty("notes").EnumerateArray().Select(n => $"{n.GetProperty("on").GetInt64()} {n.GetProperty("off").GetInt64()} {n.GetProperty("midi").GetInt32()} {n.GetProperty("track").GetInt32()}").Order(StringComparer.Ordinal).ToList();
        var wanted = Wanted(piece, ticks).Order(StringComparer.Ordinal).ToList();
        Assert.True(wanted.SequenceEqual(got), $"missing: {string.Join(", ", wanted.Except(got).Take(9))}\ninvented: {string.Join(", ", got.Except(wanted).Take(9))}");
    }

    private static IEnumerable<string> Wanted(Piece piece, int ticks)
    {
        long At(Rational time) => (time * Rational.Of(4L * ticks)) is { IsWhole: true } whole ? whole.Numerator : throw new InvalidOperationException($"{time} is no tick");
        var voices = piece.Bars.SelectMany(b => b.Rows).Select(r => r.VoiceKey).Distinct().ToList();
        var notes = new List<(long On, long Off, int Midi, int Track, bool Bent)>();
        foreach (var (bar, start) in MidiWriter.Played(piece))
            foreach (var e in bar.Rows.SelectMany(r => r.Events).Where(e => e.Kind == EventKind.Struck))
            {
                var (shift, track) = (start - bar.Start, 1 + voices.IndexOf(e.VoiceKey));
                foreach (var g in e.Grace.Where(_ => e.Onset + shift > Rational.Zero))
                    notes.Add((At(e.Onset + shift) - ticks / 8, At(e.Onset + shift), g.Midi, track, false));
                foreach (var n in e.Notes.Where(n => !n.Dead))
                    notes.Add((At(n.Onset + shift), At(n.End + shift), n.Midi, track, n.BendTo is not null));
            }
        // Where a key is struck again in its voice, it sounds no longer from before.
        foreach (var n in notes)
            yield return $"{n.On} {Math.Min(n.Off, notes.Where(o => o.Track == n.Track && o.Midi == n.Midi && o.On > n.On && o.Bent == n.Bent).Select(o => o.On).DefaultIfEmpty(long.MaxValue).Min())} {n.Midi} {n.Track}";
    }

    private static JsonElement Read(byte[] file)
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, file);
            using var node = Process.Start(new ProcessStartInfo("node", [Repository.At("tests/External/midi.mjs"), path]) { RedirectStandardOutput = true })!;
            var json = node.StandardOutput.ReadToEnd();
            node.WaitForExit();
            Assert.Equal(0, node.ExitCode);
            using var document = JsonDocument.Parse(json);
            return document.RootElement.Clone();
        }
        finally
        {
            File.Delete(path);
        }
    }
}

// What a page plays: held against the exported MIDI file, which goes its own way from beats to seconds, and against seconds worked out by hand.
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Interchange.Midi;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;
using NAudio.Midi;

namespace ChordLang.Interchange.Tests.Sheet;

public sealed partial class PlayedThroughTests
{
    public static TheoryData<string> Samples => [.. Drawn.Samples];

    /// <summary>Onsets in seconds and MIDI numbers of the exported file, by its own ticks and tempos.</summary>
    internal static List<(double Onset, int Midi)> Exported(Piece piece)
    {
        using var stream = new MemoryStream(MidiWriter.Write(piece));
        var file = new MidiFile(stream, false);
        var tempos = file.Events.SelectMany(t => t).OfType<TempoEvent>().OrderBy(t => t.AbsoluteTime).ToList();
        double Seconds(long tick)
        {
            var (at, since, per) = (0.0, 0L, 0.5);      // 120 quarters a minute until told otherwise (Standard MIDI Files 1.0)
            foreach (var tempo in tempos.TakeWhile(t => t.AbsoluteTime <= tick))
                (at, since, per) = (at + (tempo.AbsoluteTime - since) * per / file.DeltaTicksPerQuarterNote, tempo.AbsoluteTime, tempo.MicrosecondsPerQuarterNote / 1e6);
            return at + (tick - since) * per / file.DeltaTicksPerQuarterNote;
        }
        return [.. file.Events.SelectMany(t => t).OfType<NoteOnEvent>().Where(n => n.Velocity > 0).Select(n => (Seconds(n.AbsoluteTime), n.NoteNumber)).OrderBy(n => n.Item1).ThenBy(n => n.NoteNumber)];
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_note_is_struck_when_the_exported_file_strikes_it(string sample)
    {
        var (piece, _) = Drawn.Sample(sample);
        var (played, exported) = (PlayedThrough.Of(piece).Notes, Exported(piece));
        Assert.Equal(exported.Count, played.Length);
        // A millisecond: the file rounds each tempo to a microsecond a quarter.
        Assert.Equal(exported.Select(n => n.Midi).Order(), played.Select(n => n.Midi).Order());
        foreach (var (one, other) in exported.OrderBy(n => n.Midi).ThenBy(n => n.Onset).Zip(played.OrderBy(n => n.Midi).ThenBy(n => n.Onset)))
            Assert.Equal(one.Onset, other.Onset, 0.001);
    }

    [Fact]
    public void Repeats_endings_rings_and_tempos_have_the_seconds_that_are_worked_out_by_hand()
    {
        var (piece, _) = Drawn.Text("""
            meter 4/4
            tempo 60

            repeat 2
            | C
                top:  1 C4 ring over  3 E4
            ending 1
            | G7
                top:  1 G4
            tempo rubato around 120
            ending 2
            | C
                top:  1 rest  3 C5
            end
            """);
        var played = PlayedThrough.Of(piece);
        Assert.Equal([0, 1, 0, 2], played.Bars.Select(b => b.Index));
        Assert.Equal([0, 4, 8, 12], played.Bars.Select(b => Math.Round(b.Start, 6)));
        // In the second round the C rings two seconds at 60 after the E, then four beats at 120.
        Assert.Equal(["0 60 8", "2 64 2", "4 67 4", "8 60 6", "10 64 2", "13 72 1"],
            played.Notes.Select(n => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(n.Onset, 6)} {n.Midi} {Math.Round(n.Duration, 6)}")));
    }

    [Fact]
    public void A_count_in_goes_by_beats_and_fills_what_a_pickup_leaves_out()
    {
        var (piece, _) = Drawn.Text("""
            meter 6/8
            tempo 60
            pickup from 6

            | C
                6 C4
            | F
                1 C4
            """);
        var bars = PlayedThrough.Of(piece).Bars;
        // A beat of 6/8 is three eighths (common practice): one second here, so an eighth is a third of a second.
        Assert.Equal((1.0, 2, Math.Round(11 / 3.0, 6)), (Math.Round(bars[0].Click, 6), bars[0].Clicks, Math.Round(bars[0].Lead, 6)));
        Assert.Equal(2, bars[1].Lead, 6);
    }

    [Fact]
    public void The_page_allows_its_own_script_alone_and_holds_the_music()
    {
        var (piece, placed) = Drawn.Text("""
            title </script><script>alert(1)</script>

            | C
                top:  1 C4
                low:  1 C3
            """);
        var page = SheetPage.Html(piece, placed, new() { Sound = true, Practise = new HashSet<int> { 1 } });
        var scripts = Scripts().Matches(page);
        Assert.Equal(2, scripts.Count);
        Assert.Contains($"script-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(scripts[1].Groups[2].Value)))}'; base-uri", page, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", page, StringComparison.Ordinal);
        using var music = JsonDocument.Parse(scripts[0].Groups[2].Value);
        Assert.Equal(["top", "low"], music.RootElement.GetProperty("voices").EnumerateArray().Select(v => v.GetString()));
        Assert.Equal(["Hear from here", "Hear this bar again", "Practise bar 1", "Slower", "Count me in", "Leave out top", "Leave out low"], Words().Matches(page).Select(m => m.Groups[1].Value));
        Assert.Contains("Permission is hereby granted, free of charge", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", SheetPage.Html(piece, placed, new()), StringComparison.Ordinal);
    }

    [Fact]
    public void The_script_is_made_of_its_sources()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var source in Repository.Files("editor-client/sound", "*.ts"))
            hash.AppendData(Encoding.UTF8.GetBytes(Repository.Text(source).Replace("\r\n", "\n", StringComparison.Ordinal)));
        var made = Convert.ToHexStringLower(hash.GetHashAndReset());
        Assert.True(Repository.Text("server/ChordLang.Interchange/Sheet/hear.js").Contains($"of sources {made}.", StringComparison.Ordinal),
            "The script of pages that sound is older than editor-client/sound: npm run sound in editor-client makes it anew.");
    }

    [GeneratedRegex("<script( type=\"application/json\" id=\"heard\")?>(.*?)</script>", RegexOptions.Singleline)]
    private static partial Regex Scripts();

    [GeneratedRegex("<button [^>]*>([^<]*)</button>")]
    private static partial Regex Words();
}

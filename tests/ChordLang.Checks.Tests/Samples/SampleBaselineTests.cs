// What each valid sample sounds, kept as text: a change to reading or binding that moves a note shows as a difference.
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Testing;

namespace ChordLang.Checks.Tests.Samples;

public sealed class SampleBaselineTests
{
    public static TheoryData<string> Valid => [.. Repository.Samples("valid")];

    [Theory, MemberData(nameof(Valid))]
    public void A_valid_sample_sounds_as_before(string path) => Snapshots.Match(Sound(LibraryOfSamples.Bind(path)), Path.GetFileNameWithoutExtension(path));

    // A line for each bar and event: where, which voice, which notes on which strings, until when, in whole notes.
    private static string Sound(Piece piece)
    {
        var text = new StringBuilder($"played: {string.Join(' ', piece.PlayOrder.Select(i => piece.Bars[i].Number))}\n");
        foreach (var bar in piece.Bars)
        {
            text.Append($"bar {bar.Number} from {bar.Start} to {bar.End}: {string.Join(", ", bar.Chords.Select(c => $"{bar.CountOf(c.Start)} {c.Chord?.Symbol ?? "N.C."}"))}\n");
            foreach (var row in bar.Rows)
                foreach (var e in row.Events)
                    text.Append($"  {row.VoiceKey} {bar.CountOf(e.Onset)} {e.Kind}{string.Concat(e.Notes.Select(n => $" {Told(n)}"))}\n");
        }
        return text.ToString();
    }

    private static string Told(Note note) => $"{note.Pitch}{(note.String is { } s ? $"({note.Fret}@{s})" : "")}..{note.End}";
}

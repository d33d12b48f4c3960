// `chordlang name`: what frets or pitches may be called, what kind of voicing they are, and how one moves to the next.
using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Features.Hovers;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Naming;
using ChordLang.Harmony.Voicings;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class NameCommand : Command
{
    public override string Name => "name";

    public override string Takes => "VOICING … (or - for one a line)";

    public override string Summary => "Says what frets or pitches may be called, best first";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--key", "KEY", "the key it stands in, such as 'G major'"),
        new("--strings", "PITCHES", "the tuning, lowest string first"),
        new("--after", "CHORD", "the chord before it"),
        new("--before", "CHORD", "the chord behind it"),
    ];

    // A name that few would think of is left to programs; people are told the likely ones.
    private const double WorthReading = 0.003;

    public override int Run(Arguments arguments, Terminal terminal)
    {
        var voicings = Lines.Of(arguments, terminal, "name needs a voicing, such as x-3-5-4-5-x or C4+E4+A4, or - for one a line.");
        var settings = Bound(arguments, "1 rest", out var trouble);
        if (trouble is not null)
            throw new MisuseException(trouble);
        var context = new NamingContext(settings.Bars[0].Settings.Key, Chord(arguments, "--after"), Chord(arguments, "--before"));
        var sounds = voicings.Select(v => Sound(v, arguments)).ToList();
        var answers = sounds.Select((s, i) => Answer(s, i + 1 < sounds.Count ? sounds[i + 1] : null, context)).ToList();
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new VoicingsJson(1, answers), Json.Plain.VoicingsJson));
        else
            foreach (var a in answers)
                Write(a, terminal);
        return answers.Any(a => a.Trouble is not null) ? Found : Clean;
    }

    // What was given, as the notation reads it in a bar of its own.
    private sealed record Given(string Text, Piece? Piece, Event? Event, string? Trouble)
    {
        public ImmutableArray<Note> Rising => Event is null ? [] : [.. Event.Notes.OrderBy(n => n.Pitch.Midi)];
    }

    private static Piece Bound(Arguments arguments, string row, out string? trouble)
    {
        var settings = (string[])["key", "strings"];
        var text = string.Concat(settings.Select(s => arguments["--" + s] is { } v ? $"{s} {v}\n" : "")) + $"frets 36\n|\n    {row}\n";
        var tree = SyntaxTree.Parse(text);
        var piece = Binder.Bind(tree);
        trouble = tree.Lines.SelectMany(l => l.Findings).Where(f => f.Code != "text-typing").Select(f => f.Message)
            .Concat(piece.Troubles.Select(t => t.Message)).FirstOrDefault();
        return piece;
    }

    private static Chord? Chord(Arguments arguments, string option) => arguments[option] is not { } symbol ? null
        : ChordReader.Read(symbol) is var r && r.Chord is { } c ? c : throw new MisuseException($"{option}: {r.Trouble!.Message}");

    private static Given Sound(string voicing, Arguments arguments)
    {
        var piece = Bound(arguments, voicing.Any(char.IsWhiteSpace) ? "" : $"1 {voicing}", out var trouble);
        return trouble is not null || piece.Events is not [{ Kind: EventKind.Struck, Notes.Length: > 0 } e]
            ? new(voicing, null, null, trouble ?? "That is no voicing. Write frets such as x-3-5-4-5-x, or pitches such as C4+E4+A4.")
            : new(voicing, piece, e, null);
    }

    private static VoicingJson Answer(Given given, Given? next, NamingContext context)
    {
        if (given.Event is not { } e)
            return new(given.Text, [], null, [], [], null, null, null, given.Trouble);
        var notes = given.Rising;
        var names = SoundNamer.Name([.. notes.Select(n => n.Pitch)], context with { Spelled = notes.All(n => n.PitchWritten) });
        // A fret has no spelling of its own, so it takes that of the name beside it.
        ImmutableArray<Pitch> pitches = names.Readings is [var first, ..] ? [.. notes.Zip(first.Written, (n, p) => n.PitchWritten ? n.Pitch : p)] : [.. notes.Select(n => n.Pitch)];
        return new(given.Text, [.. pitches.Select(p => p.ToString())], pitches[0].Name.ToString(),
            [.. names.Readings.Select(r => new NameJson(r.Symbol, r.Root.ToString(), r.Bass.ToString(), r.Symbol.Split('/')[0][r.Root.ToString().Length..],
                [.. r.Tones.Select(t => new NameToneJson(t.Pitch.ToString(), t.Degree.ToString()))], [.. r.Missing.Select(d => d.ToString())],
                r.Rootless, Math.Round(r.Score, 4), r.Why))],
            [.. names.EqualRoots.Select(r => r.ToString())], names.Shift, Shape(e, given.Piece!, pitches, names), Motion(pitches, next), null);
    }

    // Kind and inversion are those under the first name; what is only pitches has no place on the neck.
    private static ShapeJson Shape(Event e, Piece piece, ImmutableArray<Pitch> pitches, SoundNames names)
    {
        var kind = names.Readings is [{ Chord: { } chord }, ..] ? VoicingKind.Of([.. pitches.Select(p => p.Midi)], chord) : null;
        return new(kind?.Kind, kind?.Inversion,
            e.Voicing is null ? null : e.Voicing.OuterFrets() is { } f ? f.High - f.Low : 0,
            e.Voicing is { } v ? Math.Round(v.Span(piece.Bars[0].Settings.Neck), 1) : null,
            [.. e.Notes.Where(n => n.Fret == 0).Select(n => n.String).OfType<int>().OrderDescending()], kind?.Spacing, kind?.Rootless,
            [.. e.Notes.Select(n => n.String).OfType<int>().OrderDescending()],
            names.Readings is [var first, ..] ? [.. first.Tones.Select(t => t.Degree.ToString())] : [], pitches[0].ToString(), pitches[^1].ToString());
    }

    private static MotionJson? Motion(ImmutableArray<Pitch> pitches, Given? next)
    {
        if (next?.Event is null)
            return null;
        var motion = VoicingKind.Between([.. pitches.Select(p => p.Midi)], [.. next.Rising.Select(n => n.Pitch.Midi)]);
        return new([.. motion.Common.Select(m => pitches.First(p => p.Midi == m).ToString())], motion.Moves, motion.Motion);
    }

    private static void Write(VoicingJson answer, Terminal terminal)
    {
        if (answer.Trouble is { } trouble)
        {
            terminal.Out.WriteLine($"{Terminal.Harmless(answer.Voicing)}: {Terminal.Harmless(trouble)}");
            return;
        }
        terminal.Out.WriteLine($"{answer.Voicing}: {string.Join(' ', answer.Pitches)}");
        foreach (var n in answer.Names.Where((n, i) => i == 0 || n.Score >= WorthReading))
            terminal.Out.WriteLine($"  {n.Symbol,-14} {string.Join(' ', n.Tones.Select(t => t.Degree))}{(n.Missing.Count > 0 ? $", without {string.Join(' ', n.Missing)}" : "")}. {n.Why}");
        if (answer is { EqualRoots.Count: > 1, Shift: { } shift })
            terminal.Out.WriteLine($"  {Equal(answer, shift)}");
        if (answer.Shape is { } shape)
            terminal.Out.WriteLine($"  {Told(shape)}");
        if (answer.Next is { } next)
            terminal.Out.WriteLine($"  {VoicingWords.Motion(next.Common, next.Moves, next.Motion)}");
    }

    // Either the very notes come round before the octave, or only the scale that they are drawn from.
    private static string Equal(VoicingJson answer, int shift)
    {
        var frets = shift == 1 ? "a fret" : $"{shift} frets";
        var others = answer.EqualRoots.Skip(1).ToList();
        var classes = answer.Names[0].Tones.Select(t => PitchName.TryParse(t.Pitch.TrimEnd('-', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9'), out var name) ? name.PitchClass : 0).ToHashSet();
        return classes.All(n => classes.Contains((n + shift) % 12))
            ? $"The same notes could as well be named from {Listed(others, "or")}; {frets} up or down they come round again."
            : $"Its notes lie in the {(shift == 2 ? "whole-tone" : "half-whole")} scale of {answer.EqualRoots[0]}, which is also that of {Listed(others, "and")}; {frets} up or down it stays in that scale.";
    }

    private static string Listed(List<string> words, string last) => words.Count == 1 ? words[0] : $"{string.Join(", ", words.SkipLast(1))} {last} {words[^1]}";

    private static string Told(ShapeJson shape)
    {
        var parts = new List<string> { shape.Kind is { } kind ? VoicingWords.Kind(kind, shape.Inversion, shape.Rootless == true) : "" };
        parts.Add($"{shape.Bottom} lies lowest, {shape.Top} on top.");
        if (shape.StringSet.Count > 0)
            parts.Add($"Strings {string.Join(' ', shape.StringSet)}"
                + (shape.Mm > 0 ? string.Create(CultureInfo.InvariantCulture, $", {shape.Mm:0} mm between the outer frets") : "")
                + (shape.Open.Count > 0 ? $"; string{(shape.Open.Count > 1 ? "s" : "")} {string.Join(' ', shape.Open)} open, so it cannot be moved." : "; no open string, so it can be moved."));
        return string.Join(' ', parts.Where(p => p.Length > 0));
    }
}

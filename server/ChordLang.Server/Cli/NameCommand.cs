// `chordlang name`: what frets or pitches may be called.
using System.Collections.Immutable;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Naming;
using ChordLang.Theory.Chords;

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

    public override int Run(Arguments arguments, Terminal terminal)
    {
        var voicings = Lines.Of(arguments, terminal, "name needs a voicing, such as x-3-5-4-5-x or C4+E4+A4, or - for one a line.");
        var settings = Bound(arguments, "1 rest", out var trouble);
        if (trouble is not null)
            throw new MisuseException(trouble);
        var context = new NamingContext(settings.Bars[0].Settings.Key, Chord(arguments, "--after"), Chord(arguments, "--before"));
        var answers = voicings.Select(v => Answer(v, arguments, context)).ToList();
        if (arguments.Json)
            terminal.Out.WriteLine(JsonSerializer.Serialize(new VoicingsJson(1, answers), Json.Plain.VoicingsJson));
        else
            foreach (var a in answers)
                Write(a, terminal);
        return answers.Any(a => a.Trouble is not null) ? Found : Clean;
    }

    // The voicing is read by the notation itself, in a bar of its own.
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

    private static VoicingJson Answer(string voicing, Arguments arguments, NamingContext context)
    {
        var piece = Bound(arguments, voicing.Any(char.IsWhiteSpace) ? "" : $"1 {voicing}", out var trouble);
        if (trouble is not null || piece.Events is not [{ Kind: EventKind.Struck, Notes.Length: > 0 } e])
            return new(voicing, [], null, [], [], null, null, trouble ?? "That is no voicing. Write frets such as x-3-5-4-5-x, or pitches such as C4+E4+A4.");
        var pitches = e.Notes.Select(n => n.Pitch).OrderBy(p => p.Midi).ToImmutableArray();
        var names = SoundNamer.Name(pitches, context with { Spelled = e.Notes.All(n => n.PitchWritten) });
        return new(voicing, [.. pitches.Select(p => p.ToString())], pitches[0].Name.ToString(),
            [.. names.Readings.Select(r => new NameJson(r.Symbol, r.Root.ToString(), r.Bass.ToString(), r.Symbol.Split('/')[0][r.Root.ToString().Length..],
                [.. r.Tones.Select(t => new NameToneJson(t.Pitch.ToString(), t.Degree.ToString()))], [.. r.Missing.Select(d => d.ToString())],
                r.Rootless, Math.Round(r.Score, 4), r.Why))],
            [.. names.EqualRoots.Select(r => r.ToString())], names.Shift, Shape(e, piece), null);
    }

    private static ShapeJson? Shape(Event e, Piece piece) => e.Voicing is not { } v ? null
        : new(null, null, v.OuterFrets() is { } f ? f.High - f.Low : 0, Math.Round(v.Span(piece.Bars[0].Settings.Neck), 1),
            [.. e.Notes.Where(n => n.Fret == 0).Select(n => n.Pitch.ToString())]);

    private static void Write(VoicingJson answer, Terminal terminal)
    {
        if (answer.Trouble is { } trouble)
        {
            terminal.Out.WriteLine($"{Terminal.Harmless(answer.Voicing)}: {Terminal.Harmless(trouble)}");
            return;
        }
        terminal.Out.WriteLine($"{answer.Voicing}: {string.Join(' ', answer.Pitches)}");
        foreach (var n in answer.Names.Take(8))
            terminal.Out.WriteLine($"  {n.Symbol,-14} {string.Join(' ', n.Tones.Select(t => t.Degree))}{(n.Missing.Count > 0 ? $", without {string.Join(' ', n.Missing)}" : "")}. {n.Why}");
        if (answer.EqualRoots.Count > 0)
            terminal.Out.WriteLine($"  The same sound with equal right on {string.Join(' ', answer.EqualRoots)}; {answer.Shift} frets up or down it stays in its family.");
    }
}

// Says what was found: what sounds, what the name wants, and where the hand should go.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Checks.Names;

/// <summary>Findings about one sonority.</summary>
internal sealed record Wording(Piece Piece, Sonority Sonority, Fit Fit)
{
    private Chord Chord => Sonority.Chord;

    private string Symbol => Chord.Symbol;

    /// <summary>The hand slipped: one note by a fret or two, or the whole grip to the neighbouring strings.</summary>
    public Finding Slip(Repair repair)
    {
        if (repair.Movement == Movement.StringSet)
            return Found(NameVerdicts.StringSetSlip, Severity.Warning, SetMessage(repair), repair.Event.SoundSpan, [.. repair.Changes.Select(c => c.Tone)],
                [Fixed(repair), .. Renamed()]);
        var change = repair.Changes[0];
        var fights = Fit.Foreign.Contains(change.Tone.Note.Midi) ? $"{Fights(change.Tone)} "
            : Chord.Bass is { } bass && Sonority.Tones[0].Note.Pitch.Name.PitchClass != bass.PitchClass ? $"{Sounds(change.Tone)}, and {Symbol} does not have its bass {bass} below it. "
            : $"{Sounds(change.Tone)}, the {Chord.DegreeOf(change.Tone.Note.Midi).Spoken()}{(Sonority.Tones.Count(t => Class(t.Note.Midi) == Class(change.Tone.Note.Midi)) > 1 ? ", which sounds on another string too" : ", in the bass")}. ";
        var message = fights + $"{Apart(repair.By)} it is {Name(change.Midi)}, the {Chord.DegreeOf(change.Midi).Spoken()}"
            + (Sonority.Tones.Any(t => Class(t.Note.Midi) == Class(change.Midi)) ? "" : ", which is missing here") + $": a finger seems to have slipped. {Order(change)}.";
        return Found(NameVerdicts.FretSlip, Severity.Warning, message, change.Tone.Note.Span, [change.Tone], [Fixed(repair), .. Renamed()]);
    }

    /// <summary>A minor third stands where the name wants a major one.</summary>
    public Finding Third(Repair repair)
    {
        var change = repair.Changes[0];
        return Found(NameVerdicts.FretSlip, Severity.Warning,
            $"{Place(change.Tone)} sounds {new Degree(3, -1).Above(Chord.Root)}, a minor third, and the major third of {Symbol} is missing: as it stands the chord is minor. "
            + $"{Apart(repair.By)} it is {Name(change.Midi)}, the major third: a finger seems to have slipped. {Order(change)}.",
            change.Tone.Note.Span, [change.Tone], [Fixed(repair), .. Renames.Of(Piece, Sonority, sameRoot: true)]);
    }

    /// <summary>All of the chord sounds, and one tone that it does not bear makes another chord of it.</summary>
    public Finding Otherwise(Tone tone, string symbol, Repair repair) =>
        Found(NameVerdicts.Contradiction, Severity.Warning, $"{Fights(tone)} With it the sound is {symbol}: give it that name, or let the tone go.",
            tone.Note.Span, [tone], [.. Renames.To(Piece, Sonority, symbol), Fixed(repair)]);

    /// <summary>Tones fight the name, and no single movement makes the chord whole.</summary>
    public Finding Contradicts(ImmutableArray<Tone> foreign, Repair? position)
    {
        var neck = Sonority.Bar.Settings.Neck;
        var changes = foreign.Select(t => (Tone: t, Change: Nearest(t, neck))).ToArray();
        var message = position is not null && foreign.Length == Sonority.Tones.Length && !foreign.Any(t => NameVerdicts.InChord(Chord, t.Note.Midi))
            ? $"None of these tones is one of {Symbol}: it has {string.Join(' ', Chord.Tones.Select(t => t.Name))}." : string.Join(" ", changes.Select(c => Fights(c.Tone)
            + (c.Change is { } near ? $" The nearest tone that agrees is {Name(near.Midi)}, the {Chord.DegreeOf(near.Midi).Spoken()}{Where(near)}." : "")));
        var fixes = new List<Fix>();
        if (position is not null)
        {
            message += $" The whole grip {Frets(position.By)} would be {Symbol}.";
            fixes.Add(Fixed(position));
        }
        var moved = changes.Select(c => c.Change).OfType<Change>().ToImmutableArray();
        if (moved.Length == changes.Length && changes.All(c => ReferenceEquals(c.Tone.Event, changes[0].Tone.Event)))
            fixes.Add(new(string.Join(", ", moved.Select(Order)), false, Rewriting.Of(Piece, Chord, changes[0].Tone.Event, moved)));
        var span = foreign.Length == 1 ? foreign[0].Note.Span : foreign.Select(t => t.Note.Span).Aggregate((a, b) => SameLine(a, b) ? a.Join(b) : a);
        return Found(NameVerdicts.Contradiction, Severity.Warning, message, span, foreign, [.. fixes, .. Renamed()]);
    }

    /// <summary>The tone under the slash is not the lowest.</summary>
    public Finding Overturned()
    {
        var low = Sonority.Tones[0];
        var sounding = Sonority.Tones.Any(t => t.Note.Pitch.Name.PitchClass == Chord.Bass!.Value.PitchClass);
        return Found(NameVerdicts.SlashBass, Severity.Warning,
            $"{Symbol} asks for {Chord.Bass} in the bass, and the lowest tone is {Name(low.Note.Midi)}{(sounding ? $", with {Chord.Bass} above it" : "")}. "
            + $"Put {Chord.Bass} below the other tones, or take the slash from the name.", low.Note.Span, [low], [.. Renamed()]);
    }

    /// <summary>An essential tone is not heard.</summary>
    public Finding Missing(Severity severity, Repair? repair)
    {
        var tones = string.Join(" and ", Fit.Missing.Select(t => $"{t.Name}, the {t.Degree.Spoken()}"));
        var one = Fit.Missing.Length == 1;
        var message = $"{Symbol} needs {tones}, and {(one ? "it is" : "they are")} not played here: without {(one ? "it" : "them")} the ear cannot tell the chord. "
            + (repair is null ? $"Add {(one ? "it" : "them")}, or give the sound the name it has." : $"{Order(repair.Changes[0])}.");
        return Found(NameVerdicts.MissingTone, severity, message, Sonority.Event.SoundSpan,
            repair is null ? [] : [.. repair.Changes.Select(c => c.Tone)], [.. repair is null ? [] : (Fix[])[Fixed(repair)], .. Renames.Of(Piece, Sonority, sameRoot: true)]);
    }

    /// <summary>A tone colours the chord and is not in its symbol; null where there is none.</summary>
    public Finding? Unnamed()
    {
        if (Sonority.Tones.FirstOrDefault(t => t.Blamable && ReferenceEquals(t.Event, Sonority.Event) && Fit.Colours.Contains(t.Note.Midi)) is not { } tone)
            return null;
        var fuller = Renames.Fuller(Sonority);
        return Found(NameVerdicts.UnnamedTension, Severity.Hint,
            $"{Sounds(tone)}, the {Chord.DegreeOf(tone.Note.Midi).Spoken()}, which {Symbol} does not name."
            + (fuller is null ? " Leave it, or name the sound with 'is'." : $" The fuller name is {fuller}."),
            tone.Note.Span, [tone], fuller is null ? [] : [.. Renames.To(Piece, Sonority, fuller)]);
    }

    private Finding Found(string code, Severity severity, string message, Span span, ImmutableArray<Tone> blamed, ImmutableArray<Fix> fixes) =>
        new(code, severity, message, span)
        {
            Bar = Sonority.Bar.Number, Count = Sonority.Bar.CountOf(Sonority.Time),
            Strings = [.. blamed.Select(t => t.Note.String).OfType<int>().Distinct().Order()],
            Fixes = [.. fixes.Where(f => !f.Edits.IsEmpty)],
            Related = Sonority.Is is null && Sonority.Stretch is { First: { Carried: false, Span: var at } } ? [new($"{Symbol} stands here", at, null)] : [],
        };

    private ImmutableArray<Fix> Renamed() => Renames.Of(Piece, Sonority);

    private Fix Fixed(Repair repair) => new(
        repair.Movement switch
        {
            Movement.StringSet => $"Move the voicing one string {Towards(repair.By)}",
            Movement.Position => $"Move the voicing {Frets(repair.By)}",
            _ => Order(repair.Changes[0]),
        }, false, Rewriting.Of(Piece, Chord, repair.Event, repair.Changes));

    private string SetMessage(Repair repair)
    {
        var now = string.Join(' ', repair.Changes.Select(c => Name(c.Tone.Note.Midi)));
        var then = string.Join(' ', repair.Changes.Select(c => Name(c.Midi)));
        return $"These frets sound {now}, which is not {Symbol}. One string {Towards(repair.By)}, as {Rewriting.After(repair.Event, repair.Changes)}, "
            + $"the same frets sound {then}, and that is {Symbol}. Move the voicing, if the hand slipped to the wrong strings.";
    }

    private Change? Nearest(Tone tone, Fretboard.Necks.Neck neck)
    {
        for (var by = 1; by < 12; by++)
        {
            var near = new[] { -by, by }.Select(b => Repairs.Moved(tone, b, neck)).OfType<Change>()
                .Where(c => Fit.Of(Chord, Sonority.Strict, [c.Midi], 0).Foreign.IsEmpty)
                .OrderByDescending(c => Fit.Missing.Any(t => t.Name.PitchClass == Class(c.Midi))).ThenBy(c => Chord.RoleOf(c.Midi)).FirstOrDefault();
            if (near is not null)
                return near;
        }
        return null;
    }

    private string Sounds(Tone tone) => tone.Note is { String: not null, Fret: not null } ? $"{Place(tone)} sounds {Name(tone.Note.Midi)}" : $"{tone.Note.Pitch} sounds";

    private static string Place(Tone tone) => tone.Note.Fret == 0 ? $"Open string {tone.Note.String}" : $"Fret {tone.Note.Fret} on string {tone.Note.String}";

    private string Fights(Tone tone) =>
        $"{Sounds(tone)}, the {Chord.DegreeOf(tone.Note.Midi).Spoken()}, which {Symbol} does not {(Chord.RoleOf(tone.Note.Midi) == ToneRole.Tension ? "name" : "bear")}.";

    private string Name(int midi) => Chord.Spell(midi).ToString();

    private static string Apart(int by) => Math.Abs(by) == 1 ? $"One fret {(by > 0 ? "higher" : "lower")}" : $"Two frets {(by > 0 ? "higher" : "lower")}";

    private static string Frets(int by) => Apart(by).ToLowerInvariant();

    private static string Towards(int by) => by > 0 ? "towards the bass" : "towards the treble";

    private string Order(Change change) => change switch
    {
        { String: { } s, Fret: 0 } => $"Play string {s} open",
        { String: { } s, Fret: { } fret } => $"Play fret {fret} on string {s}",
        _ => $"Play {Pitch.Of(change.Midi, Chord.Spell(change.Midi))}",
    };

    private static string Where(Change change) => change is { String: { } s, Fret: { } fret } ? fret == 0 ? $", on the open string {s}" : $", at fret {fret} of string {s}" : "";

    private static int Class(int midi) => (midi % 12 + 12) % 12;

    private bool SameLine(Span a, Span b) => Piece.Tree.Source.LineAt(a.Start) == Piece.Tree.Source.LineAt(b.Start);
}

// Spells notes as key, chord and line call for: each by the spellings around it, over and over until they agree.
using ChordLang.Harmony.Weights;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Spelling;

/// <summary>
/// The spelling model. Ours: a path of signatures by dynamic programming on the line of fifths gives a first spelling; then every note chooses among the
/// names of its sound by a log-linear model over the intervals (on the line of fifths) to signature, simultaneous, earlier and later notes and
/// to its neighbours in the voice. That pitches are best spelled by counting what lies around them is known from D. Meredith, "The ps13 pitch
/// spelling algorithm", Journal of New Music Research 35 (2006), from memory.
/// </summary>
public static class Speller
{
    private const int Passes = 4;
    private static readonly SpellingWeights Weights = new(WeightTable.Load("spelling.tsv"));

    /// <summary>Spells notes.</summary>
    /// <param name="notes">The notes in order of time; those struck together by voice.</param>
    /// <returns>One answer a note, in the same order.</returns>
    public static IReadOnlyList<SpelledNote> Spell(IReadOnlyList<NoteToSpell> notes) => Spell(notes, Weights);

    internal static IReadOnlyList<SpelledNote> Spell(IReadOnlyList<NoteToSpell> notes, SpellingWeights weights)
    {
        var (around, names, fixedNames) = Start(notes, weights);
        var scores = new (PitchName, double)[notes.Count][];
        var buffer = new List<(int Feature, double Value)>();
        for (var pass = 0; pass < Passes; pass++)
        {
            var changed = false;
            for (var i = 0; i < notes.Count; i++)
            {
                scores[i] = Weigh(around, notes[i], i, names, weights, buffer);
                var best = scores[i][0].Item1.Fifths;
                if (fixedNames[i] || best == names[i])
                    continue;
                names[i] = best;
                changed = true;
            }
            if (!changed)
                break;
        }
        var answer = new SpelledNote[notes.Count];
        for (var i = 0; i < answer.Length; i++)
            answer[i] = Explained(around, notes[i], i, names, scores[i]);
        return answer;
    }

    internal static (Surroundings Around, int[] Names, bool[] Fixed) Start(IReadOnlyList<NoteToSpell> notes, SpellingWeights weights)
    {
        var given = new int?[notes.Count];
        for (var i = 0; i < given.Length; i++)
            given[i] = notes[i].Key?.Fifths;
        var passing = PassingSignatures.Path(notes, given, weights);
        var usual = passing.Length == 0 ? 0 : passing.GroupBy(p => p).MaxBy(g => g.Count())!.Key;
        var home = new int[notes.Count];
        var names = new int[notes.Count];
        var fixedNames = new bool[notes.Count];
        for (var i = 0; i < home.Length; i++)
        {
            home[i] = given[i] ?? usual;
            fixedNames[i] = notes[i].Written is not null;
            names[i] = notes[i].Written?.Fifths ?? PitchName.Nearest(notes[i].Midi, passing[i] + 2.5).Fifths;
        }
        return (new(notes, home, passing), names, fixedNames);
    }

    internal static IEnumerable<int> Candidates(int midi, int home)
    {
        // Every pitch has a name in it, also far from all signatures that are written: the ends are twelve names apart at least.
        home = Math.Clamp(home, -15, 19);
        for (var k = Math.Max(-15, home - 12); k <= Math.Min(19, home + 15); k++)
            if ((7 * k - midi) % 12 == 0)
                yield return k;
    }

    private static (PitchName, double)[] Weigh(Surroundings around, NoteToSpell note, int i, int[] names, SpellingWeights weights, List<(int Feature, double Value)> buffer)
    {
        var found = new List<(PitchName Name, double Score)>(3);
        foreach (var fifths in Candidates(note.Midi, around.Home(i)))
        {
            buffer.Clear();
            around.Of(i, fifths, names, buffer);
            var sum = 0.0;
            foreach (var (feature, value) in buffer)
                sum += weights[feature] * value;
            var name = PitchName.FromFifths(fifths);
            if (note.Chord is { } chord && chord.Spell(note.Midi) == name)
                sum += Firm(chord, note.Midi) ? weights.ChordTone : weights.ChordOther;
            found.Add((name, sum));
        }
        found.Sort((a, b) => b.Score.CompareTo(a.Score));
        return [.. found];
    }

    // Players write the raised ninth as a minor third and the diminished seventh as a sixth where that reads better, and both are right. Common practice.
    private static bool Firm(Chord chord, int midi) => chord.Names(midi) && chord.DegreeOf(midi) is not ({ Number: 9, Alteration: 1 } or { Number: 7, Alteration: -2 });

    private static SpelledNote Explained(Surroundings around, NoteToSpell note, int i, int[] names, (PitchName Name, double)[] scores)
    {
        var name = scores[0].Name;
        var ofChord = note.Chord is { } chord && chord.Spell(note.Midi) == name;
        var (to, from) = (around.Semitone(i, name.Fifths, names, true), around.Semitone(i, name.Fifths, names, false));
        var reason = ofChord && note.Chord!.Names(note.Midi) ? SpellingReason.ChordTone
            : Within(name, around.Home(i)) ? SpellingReason.Key
            : Within(name, around.Passing(i)) ? SpellingReason.PassingKey
            : to is not null ? SpellingReason.LeadsOn
            : ofChord && note.Chord!.RoleOf(note.Midi) == ToneRole.Tension ? SpellingReason.ChordAlteration
            : from is not null ? SpellingReason.ComesFrom
            : SpellingReason.Neighbours;
        var beside = reason switch { SpellingReason.LeadsOn => to, SpellingReason.ComesFrom => from, _ => null };
        return new(name, reason, beside is { } fifths ? PitchName.FromFifths(fifths) : null, around.Passing(i), [.. scores]);
    }

    private static bool Within(PitchName name, int signature) => name.Fifths >= signature - 1 && name.Fifths <= signature + 5;
}

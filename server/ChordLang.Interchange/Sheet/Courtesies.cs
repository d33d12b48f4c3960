// Accidentals that nothing demands and players expect: a note is itself again after a bar in which it was another, in the order in which bars are played.
using ChordLang.Arrangement.Music;

namespace ChordLang.Interchange.Sheet;

/// <summary>Finds the notes that take a sign out of courtesy (common practice: after the bar line, after a change of key, and where a repeat or an ending leads elsewhere than to the next bar).</summary>
internal sealed class Courtesies
{
    private readonly HashSet<Note> notes = new(ReferenceEqualityComparer.Instance);

    public Courtesies(Piece piece)
    {
        var ends = piece.Bars.Select(b => Ends(b)).ToList();
        var before = new List<int>?[piece.Bars.Length];     // where the form leads here from elsewhere than the bar before
        for (var i = 1; i < piece.PlayOrder.Length; i++)
            if (piece.PlayOrder[i] is var to && piece.PlayOrder[i - 1] is var from && from != to - 1)
                (before[to] ??= []).Add(from);
        for (var i = 0; i < before.Length; i++)
            foreach (var (place, first, _) in ends[i])
                if (i > 0 && Otherwise(ends[i - 1], place, first) || before[i]?.Any(b => Otherwise(ends[b], place, first)) == true)
                    notes.Add(first);
    }

    /// <summary>True for a note that takes a sign even where the signature says what it is.</summary>
    public bool Has(Note note) => notes.Contains(note);

    private static bool Otherwise(List<(int Place, Note First, Note Last)> bar, int place, Note note)
    {
        foreach (var (at, _, last) in bar)
            if (at == place)
                return last.Pitch.Name.Alteration != note.Pitch.Name.Alteration;
        return false;
    }

    // The first and the last note struck on each line and space of a bar.
    private static List<(int Place, Note First, Note Last)> Ends(Bar bar)
    {
        var ends = new List<(int Place, Note First, Note Last)>();
        foreach (var row in bar.Rows)
            foreach (var e in row.Events)
                if (e.Kind == EventKind.Struck)
                {
                    foreach (var note in e.Grace)
                        Add(note);
                    foreach (var note in e.Notes)
                        Add(note);
                }
        return ends;

        void Add(Note note)
        {
            if (note.Dead)
                return;
            var place = (int)note.Pitch.Name.Letter + 7 * note.Pitch.Octave;
            var i = ends.Count - 1;
            while (i >= 0 && ends[i].Place != place)
                i--;
            if (i < 0)
                ends.Add((place, note, note));
            else
                ends[i] = (place, note.Onset < ends[i].First.Onset ? note : ends[i].First, note.Onset >= ends[i].Last.Onset ? note : ends[i].Last);
        }
    }
}

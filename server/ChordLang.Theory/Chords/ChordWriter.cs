// Writes the suffix that players would write for a set of degrees: the cheapest row of the table and what must follow it.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Writes chord symbols; what it writes, <see cref="ChordReader"/> reads back as the same tones.</summary>
public static class ChordWriter
{
    // Judgement: an alteration is lighter to read than an addition, an omission heaviest; long words weigh a little.
    private const double AlterationCost = 1, AdditionCost = 1.3, OmissionCost = 2.5, SilentCost = 0.2, LetterCost = 0.12;

    /// <summary>The symbol for a root, degrees above it and a slash bass (null, or the root itself: none). Null where no symbol says just that.</summary>
    /// <param name="root">Spelled root.</param>
    /// <param name="degrees">Degrees asked for; the root need not be among them.</param>
    /// <param name="bass">Slash bass.</param>
    /// <param name="loosely">True where tones that players leave out anyway (a plain fifth, the 9 under a 13) may be named without being asked for.</param>
    public static string? Write(PitchName root, IEnumerable<Degree> degrees, PitchName? bass = null, bool loosely = false) =>
        Suffix(degrees, loosely) is { } suffix ? $"{root}{suffix}{(bass is { } b && b != root ? "/" + b : "")}" : null;

    /// <summary>The suffix alone.</summary>
    public static string? Suffix(IEnumerable<Degree> degrees, bool loosely = false)
    {
        var asked = SuffixParser.Settle([.. degrees.Append(new(1, 0))]);
        return ChordTable.All.Where(b => b.Degrees.All(d => d is not { Number: 6, Alteration: 1 }))
            .Select(b => Build(b, asked, loosely)).OfType<(string Suffix, double Cost)>().OrderBy(c => c.Cost)
            .Select(c => c.Suffix).FirstOrDefault(s => Says(s, asked, loosely));
    }

    private static (string Suffix, double Cost)? Build(ChordBase row, ImmutableArray<Degree> asked, bool loosely)
    {
        var family = ToneRoles.FamilyOf(row.Degrees);
        var (parts, cost) = (new List<(Degree At, string Text)>(), LetterCost * row.Text.Length);
        foreach (var d in asked.Where(d => !row.Degrees.Contains(d)))
        {
            if (d.Number is 2 or 3 or 4 && row.Degrees.Any(r => r.Number is 2 or 3 or 4))
                return null;
            var alters = d.Alteration != 0 && d.Number is 5 or 9 or 11 or 13 && !asked.Contains(new(d.Number, 0)) && (d.Number == 5 || asked.Any(a => a.Number == 7));
            parts.Add((d, alters ? d.ToString() : d == new Degree(7, 0) ? "maj7" : d == new Degree(7, -1) ? "addb7" : "add" + d));
            cost += alters ? AlterationCost : AdditionCost;
        }
        foreach (var r in row.Degrees.Where(r => !asked.Contains(r)))
        {
            if (r.Alteration == 0 && asked.Any(d => d.Number == r.Number))
                continue; // altered above
            if (loosely && r.Number > 1 && ToneRoles.Named(r, row.Degrees, family) == ToneRole.Optional)
                cost += SilentCost;
            else
            {
                parts.Add((r, "no" + r.Number));
                cost += OmissionCost;
            }
        }
        return (row.Text + Join(row.Text, [.. parts.OrderBy(p => p.At.Number).ThenBy(p => p.At.Alteration).Select(p => p.Text)]), cost);
    }

    // One modifier stands bare where nothing can be mistaken; more stand in brackets, parted by commas.
    private static string Join(string row, IReadOnlyList<string> parts)
    {
        var bare = parts.Count == 1 && (char.IsAsciiLetter(parts[0][0]) && parts[0][0] != 'b' || row.Length > 0 && char.IsAsciiDigit(row[^1])) && !row.Contains('(') && !(parts[0] == "maj7" && row.Length == 0);
        return parts.Count == 0 ? "" : bare ? parts[0] : $"({string.Join(',', parts)})";
    }

    private static bool Says(string suffix, ImmutableArray<Degree> asked, bool loosely)
    {
        if (ChordReader.Read("C", suffix, null).Chord is not { } read)
            return false;
        var said = read.Tones.Select(t => t.Degree.Interval).ToHashSet();
        return asked.All(d => said.Contains(d.Interval))
            && read.Tones.All(t => asked.Any(d => d.Interval == t.Degree.Interval) || loosely && t.Role == ToneRole.Optional);
    }
}

// The tones of a chord while its suffix is being read: a kind from the table, then what modifies it.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Collects the tones of one suffix.</summary>
internal sealed class SuffixTones
{
    private static readonly string[] MajorSevenths = ["maj7", "Maj7", "MAJ7", "ma7", "Ma7", "MA7", "M7", "Δ7", "∆7", "Δ", "∆", "^7", "7M"];
    private static readonly string[] MajorNinths = ["maj9", "Maj9", "MAJ9", "ma9", "MA9", "M9"];
    private static readonly (string Word, int[] Stands)[] Suspensions =
        [("sus2sus4", [2, 4]), ("sus4sus2", [2, 4]), ("sus24", [2, 4]), ("sus4", [4]), ("sus2", [2]), ("sus", [4])];

    private readonly List<(Degree Degree, ToneRole Role)> tones = [];
    private readonly List<int> left = [];

    public SuffixTones(ChordRow row)
    {
        Row = row;
        foreach (var text in row.Degrees.Split(' '))
            if (Degree.TryParse(text.Trim('(', ')', '!'), out var d))
                tones.Add((d, text[0] == '(' || text[^1] != '!' && (d.Number == 1 || d is { Number: 5, Alteration: 0 }) ? ToneRole.Optional : ToneRole.Essential));
    }

    public ChordRow Row { get; }

    /// <summary>Reads modifiers from an offset; answers the offset of the first character that means nothing, or the end.</summary>
    public int Modify(string text, int at)
    {
        var open = '\0';
        var listed = false;       // behind a bracket, comma or slash a bare number is an addition
        while (at < text.Length)
        {
            var c = text[at];
            if (c is '(' or '[' && open == '\0')
            {
                (open, listed) = (c, true);
                if (++at >= text.Length || text[at] is ')' or ']')
                    return at < text.Length ? at : text.Length - 1;
                continue;
            }
            if (c is ')' or ']' && open == (c == ')' ? '(' : '['))
            {
                if (text[at - 1] is ',' or '/')
                    return at;
                (open, listed) = ('\0', false);
                at++;
                continue;
            }
            if (c == ',' && open != '\0' || c == '/')
            {
                if (at == 0 || text[at - 1] is ',' or '/' or '(' or '[')
                    return at;
                listed = true;
                if (++at >= text.Length)
                    return at - 1;
                continue;
            }
            var next = One(text, at, listed);
            if (next == at)
                return at;
            listed = open != '\0';
            at = next;
        }
        return open == '\0' ? at : text.LastIndexOf(open);
    }

    /// <summary>The chord, with the role and the degree of each interval.</summary>
    public Chord Build(string symbol, PitchName root, PitchName? bass)
    {
        var named = tones.GroupBy(t => t.Degree).Select(g => (Degree: g.Key, Role: g.Min(t => t.Role)))
            .OrderBy(t => t.Degree.Semitones).ThenBy(t => t.Degree.Number).ToList();
        var third = Has(4) && !Has(3) ? "4" : Has(2) && !Has(3) ? "2" : Text(3);
        var seventh = named.Any(t => t.Degree.Number == 7) ? Text(7) : Has(6) ? "6" : "-";
        var row = RoleTable.For(third, Text(5) == "-" && !left.Contains(5) && seventh != "b7" ? Text(5) : Fifth(), seventh);
        var roles = row.Roles.Select(c => c switch { 'e' => ToneRole.Essential, 'o' => ToneRole.Optional, 't' => ToneRole.Tension, _ => ToneRole.Contradiction }).ToArray();
        for (var i = 0; i < 12; i++)     // what the family holds but this symbol does not name is no part of it
            if (roles[i] <= ToneRole.Optional && i != 0 && named.All(t => t.Degree.Interval != i))
                roles[i] = left.Contains(3) && i is 3 or 4 ? ToneRole.Contradiction : ToneRole.Tension;
        foreach (var (name, shut) in RoleTable.Exclusions)
            if (named.Any(t => t.Degree.ToString() == name))
                foreach (var d in shut.Split(' '))
                    if (Degree.TryParse(d, out var degree) && named.All(t => t.Degree.Interval != degree.Interval))
                        roles[degree.Interval] = ToneRole.Contradiction;
        foreach (var t in named)
            roles[t.Degree.Interval] = t.Role;
        var degrees = Names(named, third, seventh);
        return new(symbol, root, ChordKinds.Of(Row, named.Select(t => t.Degree), third, seventh),
            [.. named.Select(t => new ChordTone(t.Degree, t.Degree.Above(root), t.Role))], bass, [.. roles], degrees);

        bool Has(int number) => named.Any(t => t.Degree.Number == number);
        string Text(int number) => named.Where(t => t.Degree.Number == number).Select(t => t.Degree.ToString()).FirstOrDefault() ?? "-";
        string Fifth() => Text(5) != "-" ? Text(5) : left.Contains(5) ? "5" : Row.Canonical == "7alt" ? "-" : "5";
    }

    // One modifier; answers the offset behind it, or where it began if there is none.
    private int One(string text, int at, bool listed)
    {
        if (Word(text, at, "add") is var end && end > at)
            return Number(text, end, true, true) is var behind && behind > end ? behind : at;
        foreach (var word in (string[])["omit", "no"])
            if (Word(text, at, word) is var cut && cut > at)
                return Leave(text, cut) is var rest && rest > cut ? rest : at;
        foreach (var (word, stands) in Suspensions)
            if (Word(text, at, word) is var behind && behind > at)
            {
                tones.RemoveAll(t => t.Degree.Number == 3);
                foreach (var s in stands)
                    Put(new(s, 0), ToneRole.Essential);
                return behind;
            }
        if (Word(text, at, "alt") is var alt && alt > at)
        {
            tones.RemoveAll(t => t.Degree is { Number: 5, Alteration: 0 } or { Number: 9, Alteration: 0 });
            foreach (var d in (Degree[])[new(9, -1), new(9, 1), new(11, 1), new(13, -1)])
                Put(d, ToneRole.Optional);
            return alt;
        }
        foreach (var word in MajorSevenths)
            if (Word(text, at, word) is var behind && behind > at)
                return Seventh(behind);
        foreach (var word in MajorNinths)
            if (Word(text, at, word) is var behind && behind > at)
            {
                Put(new(9, 0), ToneRole.Essential);
                return Seventh(behind);
            }
        if (Word(text, at, "aug") is var aug && aug > at || text[at] == '+' && !(at + 1 < text.Length && char.IsAsciiDigit(text[at + 1])) && (aug = at + 1) > at)
        {
            Alter(5, 1);
            return aug;
        }
        return Number(text, at, listed, false);
    }

    private int Seventh(int behind)
    {
        tones.RemoveAll(t => t.Degree.Number == 7 && t.Degree.Alteration == -1);
        // Over a diminished seventh the major seventh is a tone of its own.
        Put(new(7, 0), ToneRole.Essential);
        return behind;
    }

    // Accidental and number; a number alone only where it is listed or added.
    private int Number(string text, int at, bool bare, bool added)
    {
        var k = at;
        while (k < text.Length && text[k] is '#' or 'b' or '♯' or '♭' or '+' or '-' or '−')
            k++;
        var end = k;
        while (end < text.Length && char.IsAsciiDigit(text[end]) && end - k < 2)
            end++;
        if (end - k == 2 && text.AsSpan(k, 2) is not ("10" or "11" or "13"))
            end--;
        if (end == k || k == at && !bare || k - at > 2 || !int.TryParse(text.AsSpan(k, end - k), out var number) || number is 1 or 8 or 3 && k == at || number == 0)
            return at;
        var alteration = 0;
        foreach (var c in text.AsSpan(at, k - at))
            alteration += c is '#' or '♯' or '+' ? 1 : -1;
        if (alteration == 0)
            Add(number, added);
        else if (number is 1 or 8)
            return at;
        else
            Alter(number, alteration);
        return end;
    }

    private void Add(int number, bool added)
    {
        var seventh = tones.Any(t => t.Degree.Number == 7);
        switch (number)
        {
            case 4 when !added:
                tones.RemoveAll(t => t.Degree.Number == 3);
                Put(new(4, 0), ToneRole.Essential);
                break;
            case 7: Put(new(7, -1), ToneRole.Essential); break;
            case 5: Put(new(5, 0), ToneRole.Optional); break;
            case 2: Put(new(9, 0), ToneRole.Essential); break;
            case 4: Put(new(11, 0), ToneRole.Essential); break;
            case 6 or 13: Put(new(seventh ? 13 : 6, 0), ToneRole.Essential); break;
            case 3 or 10: Put(new(3, 0), ToneRole.Essential); break;
            default: Put(new(number, 0), ToneRole.Essential); break;
        }
    }

    private void Alter(int number, int alteration)
    {
        var seventh = tones.Any(t => t.Degree.Number == 7);
        var as_ = number switch { 2 => 9, 4 => 11, 10 when alteration < 0 => 9, 6 when seventh => 13, 13 when !seventh && Row.Canonical is "" or "m" => 6, _ => number };
        if (number == 10)
            alteration = 1;
        if (as_ is 3 or 7)
            tones.RemoveAll(t => t.Degree.Number == as_);
        else
            tones.RemoveAll(t => t.Degree.Number == as_ && t.Degree.Alteration == 0);
        Put(new(as_, as_ == 7 && alteration == 1 ? 0 : alteration), ToneRole.Essential);
    }

    private int Leave(string text, int at)
    {
        var end = at;
        while (end < text.Length && char.IsAsciiDigit(text[end]) && end - at < 2)
            end++;
        if (!int.TryParse(text.AsSpan(at, end - at), out var number) || number is not (1 or 3 or 5 or 7 or 9 or 11 or 13))
            return at;
        foreach (var tail in (string[])["rd", "th", "d"])
            if (Word(text, end, tail) is var behind && behind > end)
            {
                end = behind;
                break;
            }
        left.Add(number);
        tones.RemoveAll(t => t.Degree.Number == number);
        return end;
    }

    private void Put(Degree degree, ToneRole role)
    {
        tones.RemoveAll(t => t.Degree == degree);
        tones.Add((degree, role));
    }

    private static int Word(string text, int at, string word) => string.CompareOrdinal(text, at, word, 0, word.Length) == 0 ? at + word.Length : at;

    private static ImmutableArray<Degree> Names(List<(Degree Degree, ToneRole Role)> named, string third, string seventh)
    {
        var six = seventh is "-" or "6" ? 6 : 13;
        Degree[] usual =
        [
            new(1, 0), new(9, -1), new(9, 0), third == "b3" ? new(3, -1) : new(9, 1), new(3, 0), third == "4" ? new(4, 0) : new(11, 0),
            new(11, 1), new(5, 0), new(six, -1), new(six, 0), new(7, -1), new(7, 0),
        ];
        foreach (var t in named)
            usual[t.Degree.Interval] = t.Degree;
        return [.. usual];
    }
}

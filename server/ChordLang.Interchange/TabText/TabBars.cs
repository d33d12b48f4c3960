// Cuts a system of typed tablature into bars, also where the lines are not equally long or have no bar lines.
namespace ChordLang.Interchange.TabText;

/// <summary>One bar of a system. Columns count from the bar's own start.</summary>
/// <param name="Width">Its columns.</param>
/// <param name="Signs">String (1 = highest), sign, and the column that it shares with what sounds with it.</param>
/// <param name="Chords">Chord names above, by column.</param>
/// <param name="Counts">Counts below, by column, as written.</param>
/// <param name="Repeats">True where a repeat begins before it.</param>
/// <param name="RepeatEnds">True where it ends behind it.</param>
/// <param name="Guesses">What had to be guessed to cut it.</param>
internal sealed record TabBar(int Width, List<(int String, TabSign Sign, int Column)> Signs, List<(int Column, string Symbol)> Chords, List<(int Column, string Text)> Counts, bool Repeats, bool RepeatEnds, List<string> Guesses);

/// <summary>Cuts systems into bars.</summary>
internal static class TabBars
{
    // More sounds than that in one bar are more bars than one.
    private const int MostSounds = 16;

    private sealed record Piece(int Start, string Text);

    /// <summary>The bars of a system.</summary>
    public static List<TabBar> Of(TabSystem system)
    {
        var lines = system.Strings.Select(Cut).ToList();
        var guesses = new List<string>();
        var most = lines.GroupBy(l => l.Count).MaxBy(g => g.Count())!.Key;
        if (lines.Any(l => l.Count != most))
        {
            // Bar lines missing on some strings: they are taken from a string that has them all.
            var whole = lines.First(l => l.Count == most);
            lines = [.. lines.Select((l, s) => l.Count == most ? l : whole.Select(p => new Piece(p.Start, Part(system.Strings[s], p.Start, p.Text.Length))).ToList())];
            guesses.Add("bar lines are missing on some strings, and are taken from the others");
        }
        var bars = new List<TabBar>();
        for (var b = 0; b < most; b++)
            bars.AddRange(Bar(system, [.. lines.Select(l => l[b])], most == 1 && !system.Strings.Any(s => s.TrimEnd().EndsWith('|')), [.. guesses]));
        return bars;
    }

    private static IEnumerable<TabBar> Bar(TabSystem system, List<Piece> pieces, bool open, List<string> guesses)
    {
        var strange = new HashSet<char>();
        var signs = pieces.SelectMany((p, s) => TabSigns.Read(p.Text, c => strange.Add(c)).Select(x => (String: s + 1, Sign: x))).ToList();
        if (strange.Count > 0)
            guesses.Add($"{string.Join(" and ", strange.Order())} {(strange.Count == 1 ? "means" : "mean")} nothing here, and {(strange.Count == 1 ? "is" : "are")} left out");
        var width = pieces.Max(p => p.Text.Length);
        if (pieces.Any(p => p.Text.Length != width) || pieces.Select((p, s) => p.Start + system.Margin[s]).Distinct().Count() > 1)
            guesses.Add("its lines are not equally long, so what sounds together is a guess");
        var start = pieces[0].Start + system.Margin[0];
        var chords = Texts(system.Chords, start, width);
        var counts = Texts(system.Counts, start, width);
        var placed = Columns(signs, counts);
        var (repeats, ends) = (pieces.Any(p => p.Text.StartsWith(':') || p.Text.StartsWith('*')), pieces.Any(p => p.Text.TrimEnd().EndsWith(':') || p.Text.TrimEnd().EndsWith('*')));
        var sounds = placed.Select(p => p.Column).Distinct().Count();
        var parts = open && counts.Count == 0 ? Math.Max(1, (sounds + 7) / 8) : sounds > 2 * MostSounds ? (sounds + MostSounds - 1) / MostSounds : 1;
        if (open)
            guesses.Add(parts > 1 ? $"no bar line is written, so the line is cut into {parts} bars" : "no bar line is written, so the line is one bar");
        for (var k = 0; k < parts; k++)
        {
            var (from, to) = (k * width / parts, (k + 1) * width / parts);
            yield return new(to - from, [.. placed.Where(p => p.Column >= from && p.Column < to).Select(p => (p.String, p.Sign, p.Column - from))],
                [.. chords.Where(c => c.Column >= from && c.Column < to).Select(c => (c.Column - from, c.Text))], [.. counts.Where(c => c.Column >= from && c.Column < to).Select(c => (c.Column - from, c.Text))],
                repeats && k == 0, ends && k == parts - 1, guesses);
        }
    }

    // A sign before a fret (h7) may begin over the count or beside it: what has a count below it, or a fret beside it, decides.
    private static List<(int String, TabSign Sign, int Column)> Columns(List<(int String, TabSign Sign)> signs, List<(int Column, string Text)> counts)
    {
        var anchors = counts.Count > 0 ? counts.Select(c => c.Column).ToHashSet() : signs.Where(s => s.Sign.Start == s.Sign.Column).Select(s => s.Sign.Column).ToHashSet();
        return [.. signs.Select(s => (s.String, s.Sign, Column(s.Sign)))];

        int Column(TabSign s)
        {
            if (anchors.Contains(s.Column) && !(counts.Count > 0 && anchors.Contains(s.Start)))
                return s.Column;
            if (anchors.Contains(s.Start))
                return s.Start;
            // The second digit of a fret, or a hand that slipped by one.
            return anchors.Contains(s.Column - 1) ? s.Column - 1 : anchors.Contains(s.Column + 1) && counts.Count > 0 ? s.Column + 1 : s.Column;
        }
    }

    private static List<(int Column, string Text)> Texts(string? line, int start, int width)
    {
        var found = new List<(int, string)>();
        for (var i = 0; line is not null && i < line.Length;)
        {
            var end = i;
            while (end < line.Length && line[end] is not (' ' or '\t' or '|'))
                end++;
            // A name may begin a little before the bar line; it is the next bar's.
            if (end > i && i >= start - 2 && i < start + Math.Max(1, width - 1))
                found.Add((Math.Max(0, i - start), line[i..end]));
            i = Math.Max(end, i + 1);
        }
        return found;
    }

    private static string Part(string line, int start, int length) => start >= line.Length ? "" : line.Substring(start, Math.Min(length, line.Length - start)).Replace('|', '-');

    private static List<Piece> Cut(string line)
    {
        var pieces = new List<Piece>();
        for (var i = 0; i < line.Length;)
        {
            var end = line.IndexOf('|', i);
            end = end < 0 ? line.Length : end;
            var text = line[i..end];
            // Between the strokes of a double bar line stands nothing; repeat dots belong to the bar beside them.
            if (text.Trim(' ', ':', '*', '.').Length > 0)
                pieces.Add(new(i, text));
            else if (text.Contains(':') && pieces.Count > 0)
                pieces[^1] = pieces[^1] with { Text = pieces[^1].Text + ":" };
            i = end + 1;
        }
        return pieces.Count > 0 ? pieces : [new(0, line)];
    }
}

// What stands on one string of one bar of typed tablature: frets, and the letters between them.
using ChordLang.Interchange.Scores;

namespace ChordLang.Interchange.TabText;

/// <summary>A fret, or a dead note, with what is written around it.</summary>
/// <param name="Start">Column where its signs begin.</param>
/// <param name="Column">Column of the number itself.</param>
/// <param name="Fret">The fret; null for a dead note.</param>
/// <param name="Marks">How it is reached and played.</param>
/// <param name="Harmonic">True in angle brackets.</param>
/// <param name="Bend">Semitones that it is bent by, 0 for none.</param>
internal sealed record TabSign(int Start, int Column, int? Fret, List<ScoreMark> Marks, bool Harmonic, int Bend);

/// <summary>Reads the signs of a string.</summary>
internal static class TabSigns
{
    private const int HighestFret = 24;

    /// <summary>The signs of a piece of a string line, left to right; letters that mean nothing here are given to <paramref name="strange"/>.</summary>
    public static List<TabSign> Read(string line, Action<char> strange)
    {
        var signs = new List<TabSign>();
        var (before, start) = ((ScoreMark?)null, -1);
        for (var i = 0; i < line.Length; i++)
        {
            var c = char.ToLowerInvariant(line[i]);
            if (c is >= '0' and <= '9')
            {
                var two = i + 1 < line.Length && char.IsAsciiDigit(line[i + 1]) && (c - '0') * 10 + (line[i + 1] - '0') <= HighestFret && c != '0';
                var fret = two ? (c - '0') * 10 + (line[i + 1] - '0') : c - '0';
                var harmonic = i > 0 && line[i - 1] is '<' or '[' or '{';
                var ghost = i > 0 && line[i - 1] == '(';
                signs.Add(new(start >= 0 ? start : harmonic || ghost ? i - 1 : i, i, fret, [], harmonic, 0));
                if (before is not null)
                    signs[^1].Marks.Add(before);
                if (ghost)
                    signs[^1].Marks.Add(new("unsure"));
                i += two ? 1 : 0;
                (before, start) = (null, -1);
                // A bend stands behind its fret, with or without the fret whose sound it reaches.
                if (i + 1 < line.Length && char.ToLowerInvariant(line[i + 1]) == 'b')
                {
                    var j = i + 2;
                    while (j < line.Length && line[j] is '(')
                        j++;
                    var digits = 0;
                    while (j + digits < line.Length && digits < 2 && char.IsAsciiDigit(line[j + digits]))
                        digits++;
                    var by = digits > 0 ? int.Parse(line.AsSpan(j, digits)) - fret : 2;
                    signs[^1] = signs[^1] with { Bend = Math.Clamp(by, 0, 12) };
                    i = j + digits - 1;
                }
                continue;
            }
            switch (c)
            {
                case 'x':
                    signs.Add(new(start >= 0 ? start : i, i, null, [], false, 0));
                    (before, start) = (null, -1);
                    break;
                case 'h' or 'p' or '/' or '\\' or 's' or 't':
                    if (c == 't')
                        strange('t');
                    before = c switch { 'h' => new("hammer"), 'p' => new("pull"), 't' => null, _ => new("slide") };
                    // A slide from nothing begins below or above.
                    if (signs.Count == 0 && c is '/' or '\\')
                        before = new("slide", c == '/' ? "from below" : "from above");
                    start = i;
                    break;
                case '~' or 'v' when signs.Count > 0:
                    if (!signs[^1].Marks.Contains(new("vibrato")))
                        signs[^1].Marks.Add(new("vibrato"));
                    break;
                case 'r' or '^' or '=' or '*':
                    strange(c);
                    break;
                case '-' or '–' or '—' or ' ':
                    // A letter with nothing behind it belongs to no fret.
                    if (start >= 0 && i > start + 2)
                        (before, start) = (null, -1);
                    break;
            }
        }
        return signs;
    }
}

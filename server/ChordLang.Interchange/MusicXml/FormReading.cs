// Repeats, endings and leaps of a score as the form lines of our notation, which pair them more strictly.

namespace ChordLang.Interchange.MusicXml;

/// <summary>Writes form lines into measures.</summary>
internal static class FormReading
{
    private const int MostCopies = 200;

    /// <summary>The measures with their form lines; an ending that is played several times stands once for each.</summary>
    public static List<RawMeasure> Of(List<RawMeasure> measures)
    {
        var all = Unshared(measures);
        Repeats(all);
        Leaps(all);
        return all;
    }

    // Our endings have one number each: what is shared by several is written for each of them.
    private static List<RawMeasure> Unshared(List<RawMeasure> measures)
    {
        var all = new List<RawMeasure>();
        var copies = 0;
        for (var i = 0; i < measures.Count; i++)
        {
            if (measures[i].Ending is not { Length: > 1 } numbers)
            {
                all.Add(measures[i]);
                continue;
            }
            var last = i;
            while (last + 1 < measures.Count && !measures[last].EndingStops && measures[last + 1].Ending is null)
                last++;
            var length = last - i + 1;
            if ((copies += length * (numbers.Length - 1)) > MostCopies)
            {
                measures[i].Ending = [numbers[0]];
                measures[i].Lose("an ending that is played several times is kept for the first of them only.");
                i--;
                continue;
            }
            measures[i].Lose($"the ending that is played the {string.Join(" and the ", numbers.Select(n => $"{n}."))} time is written once for each.");
            for (var k = 0; k < numbers.Length; k++)
                for (var m = i; m <= last; m++)
                {
                    var measure = k == 0 ? measures[m] : measures[m].Copy();
                    if (m == i)
                        measure.Ending = [numbers[k]];
                    measure.EndingStops = m == last;
                    all.Add(measure);
                }
            i = last;
        }
        return all;
    }

    private static void Repeats(List<RawMeasure> all)
    {
        var (start, from, endings, open) = (-1, 0, new List<(int At, int Number)>(), new List<int>());
        for (var i = 0; i < all.Count; i++)
        {
            var m = all[i];
            if (m.Forward)
            {
                if (start >= 0 && endings.Count == 0)
                    all[start].Lose("a repeat that begins here never ends, so it is left out.");
                else if (endings.Count > 0)
                    Close(i - 1);
                start = i;
            }
            if (m.Ending is { Length: > 0 } ending)
                endings.Add((i, ending[0]));
            else if (m.Ending is not null)
                m.Lose("an ending has no number, so it is left out.");
            var goesOn = i + 1 < all.Count && all[i + 1].Ending is { Length: > 0 } && !all[i + 1].Forward;
            if (m.Backward is not null && endings.Count == 0 && !goesOn || endings.Count > 0 && (m.EndingStops || m.Backward is not null) && !goesOn)
                Close(i, m.Backward ?? 0);
        }
        if (endings.Count > 0)
            Close(all.Count - 1);
        else if (start >= 0)
            all[start].Lose("a repeat that begins here never ends, so it is left out.");

        void Close(int last, int times = 0)
        {
            var first = start >= 0 ? start : from;
            // An ending whose number came before begins the count anew in some files: number them as they come.
            var numbers = endings.Select(e => e.Number).ToList();
            if (numbers.Distinct().Count() != numbers.Count)
            {
                numbers = [.. Enumerable.Range(1, numbers.Count)];
                all[first].Lose("its endings are numbered twice; they are counted anew.");
            }
            times = Math.Max(Math.Max(times, 2), numbers.DefaultIfEmpty(0).Max());
            all[first].Before.Add($"repeat {times}");
            for (var k = 0; k < endings.Count; k++)
                all[endings[k].At].Before.Add($"ending {numbers[k]}");
            if (endings.Count > 0)
                foreach (var missing in Enumerable.Range(1, times).Except(numbers))
                    all[last].After.Add($"ending {missing}");
            all[last].After.Add("end");
            (start, from) = (-1, last + 1);
            endings.Clear();
        }
    }

    // A sign that leads nowhere would be a finding: it is left out, and told.
    private static void Leaps(List<RawMeasure> all)
    {
        var words = all.SelectMany(m => m.Before.Concat(m.After)).ToHashSet();
        var back = words.Any(w => w.StartsWith("da capo", StringComparison.Ordinal) || w.StartsWith("dal segno", StringComparison.Ordinal));
        var segno = words.Any(w => w.StartsWith("dal segno", StringComparison.Ordinal));
        var alCoda = words.Any(w => w.EndsWith("al coda", StringComparison.Ordinal));
        var seen = new HashSet<string>();
        var sawSegno = false;
        foreach (var m in all)
        {
            Keep(m, m.Before);
            Keep(m, m.After);
        }

        void Keep(RawMeasure m, List<string> lines)
        {
            for (var i = 0; i < lines.Count; i++)
            {
                var line = lines[i];
                sawSegno |= line == "segno";
                var good = line switch
                {
                    "segno" => segno && seen.Add(line),
                    "fine" => back && seen.Add(line),
                    "to coda" => alCoda && words.Contains("coda") && seen.Add(line),
                    "coda" => alCoda && seen.Add(line),
                    "da capo al fine" or "dal segno al fine" when !words.Contains("fine") => false,
                    "da capo al coda" or "dal segno al coda" when !words.Contains("coda") || !words.Contains("to coda") => false,
                    _ when line.StartsWith("dal segno", StringComparison.Ordinal) => sawSegno,
                    _ => true,
                };
                if (good)
                    continue;
                // Segno and coda often stand in a bar line and a direction at once; that is no loss.
                if (!seen.Contains(line))
                    m.Lose($"{line} has no partner, so it is left out.");
                lines.RemoveAt(i--);
            }
            // Where one leaps back stands behind the end of a repeat; fine and to coda stand before it.
            var ordered = lines.OrderBy(l => l is "segno" or "coda" ? 0 : l.StartsWith("repeat", StringComparison.Ordinal) ? 1 : l is "fine" or "to coda" ? 2 : l.StartsWith("ending", StringComparison.Ordinal) ? 3 : l == "end" ? 4 : 5).ToList();
            lines.Clear();
            lines.AddRange(ordered);
        }
    }
}

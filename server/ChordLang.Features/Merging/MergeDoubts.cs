// Holds a merge against the music: what one side changed must sound in the result as it sounded on that side.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Comparing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Merging;

/// <summary>A version with its music by line.</summary>
internal sealed class MergeVersion
{
    private readonly ILookup<int, BarMusic> bars;

    /// <summary>Of a piece.</summary>
    public MergeVersion(Piece piece)
    {
        Piece = piece;
        bars = BarMusic.Of(piece).ToLookup(b => b.Bar.Line);
    }

    /// <summary>The piece.</summary>
    public Piece Piece { get; }

    /// <summary>The bars that stand on the lines of a unit.</summary>
    public IEnumerable<BarMusic> Bars(int line, int count) => Enumerable.Range(line, count).SelectMany(l => bars[l]);

    /// <summary>All voices with a label.</summary>
    public HashSet<string> Voices => [.. Piece.Bars.SelectMany(b => b.Rows).Select(r => r.Voice).OfType<string>()];

    /// <summary>What is found, as it can be recognised in another version.</summary>
    public Dictionary<string, int> Findings => CheckCatalogue.Run(Piece).Where(f => f.Severity <= Severity.Warning).GroupBy(Name).ToDictionary(g => g.Key, g => g.Count());

    /// <summary>What tells a finding, wherever its line stands.</summary>
    public string Name(Finding f) => $"{f.Code} {MergeUnit.Squeeze(Piece.Tree.Source.LineText(Piece.Tree.Source.LineAt(f.Span.Start)))}";
}

/// <summary>Finds what is in doubt.</summary>
internal static class MergeDoubts
{
    /// <summary>The doubts of a merge: the part, and why.</summary>
    /// <param name="parts">Its parts.</param>
    /// <param name="lines">The first line of each part in the result.</param>
    /// <param name="old">The base.</param>
    /// <param name="ours">Ours.</param>
    /// <param name="theirs">Theirs.</param>
    /// <param name="result">The result.</param>
    public static IEnumerable<(int Part, string Why)> Find(
        ImmutableArray<MergePart> parts, ImmutableArray<int> lines, MergeVersion old, MergeVersion ours, MergeVersion theirs, MergeVersion result)
    {
        for (var i = 0; i < parts.Length; i++)
            if (parts[i] is { Text.Length: > 0, Side: MergeSide.Ours or MergeSide.Theirs } part)
            {
                var mine = part.Side == MergeSide.Ours;
                var (version, other, units) = mine ? (ours, theirs, part.Ours) : (theirs, ours, part.Theirs);
                if (Voice(units, old, other) is { } voice)
                    yield return (i, $"it holds the voice {voice}, which the other side renamed or took out");
                else if (units.SelectMany(u => version.Bars(u.Line, u.Count)).Zip(result.Bars(lines[i], units.Sum(u => u.Count))).FirstOrDefault(p => p.First.Whole != p.Second.Whole) is { First: { } wanted, Second: { } got })
                    yield return (i, Why(wanted, got));
            }
        // What either side brought with it is no doubt of the merge, even where both brought the like.
        var (before, mineFound, otherFound) = (old.Findings, ours.Findings, theirs.Findings);
        int Known(string name) => before.GetValueOrDefault(name) is var b ? b + Math.Max(0, mineFound.GetValueOrDefault(name) - b) + Math.Max(0, otherFound.GetValueOrDefault(name) - b) : 0;
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var finding in CheckCatalogue.Run(result.Piece).Where(f => f.Severity <= Severity.Warning))
        {
            var name = result.Name(finding);
            var count = seen[name] = seen.GetValueOrDefault(name) + 1;
            if (count > Known(name))
                yield return (PartAt(lines, result.Piece.Tree.Source.LineAt(finding.Span.Start)), $"joined, they give {finding.Code}: {finding.Message}");
        }
    }

    private static int PartAt(ImmutableArray<int> lines, int line)
    {
        var part = lines.BinarySearch(line);
        return part >= 0 ? Enumerable.Range(part, lines.Length - part).TakeWhile(p => lines[p] == line).Last() : ~part - 1;
    }

    private static string? Voice(ImmutableArray<MergeUnit> units, MergeVersion old, MergeVersion other)
    {
        var gone = old.Voices.Except(other.Voices).ToList();
        return gone.Count == 0 ? null : units.SelectMany(u => SyntaxTree.Parse(u.Text).Lines).OfType<RowLine>().Select(r => r.Voice).FirstOrDefault(v => v is not null && gone.Contains(v));
    }

    private static string Why(BarMusic wanted, BarMusic got)
    {
        var (a, b) = (wanted.Bar.Settings, got.Bar.Settings);
        if (wanted.Setting != got.Setting)
            return $"the other side changed the {(a.Key != b.Key ? "key" : a.Meter != b.Meter ? "meter" : a.Neck.Tuning != b.Neck.Tuning ? "strings" : a.Neck.Capo != b.Neck.Capo ? "capo" : "pickup")} that holds here";
        if (wanted.Bar.Repeats is not null)
            return "it repeats (%) a bar that the other side changed";
        if (wanted.Events.Any(e => e.Shape is { } s && got.Events.Any(g => g.Shape is { } other && other.Name == s.Name && !other.Slots.SequenceEqual(s.Slots))))
            return "the other side changed a shape that it uses";
        if (wanted.Harmony != got.Harmony)
            return "its chord lasts on from a bar that the other side changed";
        return wanted.Own == got.Own ? "something rings into it (ring over) that the other side changed" : "it goes on (tied, again, ring) from or into a bar that the other side changed";
    }
}

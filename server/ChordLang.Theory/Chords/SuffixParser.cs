// Reads the suffix of a chord symbol by longest match in the two tables, and knows how far it came where it fails.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>A suffix that was understood, or how far it was.</summary>
/// <param name="Base">The row it begins with.</param>
/// <param name="Degrees">Degrees asked for, rising; empty where the suffix failed.</param>
/// <param name="Omitted">Numbers that the suffix forbids.</param>
/// <param name="At">Where it failed, in characters of the suffix; -1 where it was understood.</param>
/// <param name="Why">Why it failed.</param>
internal sealed record SuffixReading(ChordBase Base, ImmutableArray<Degree> Degrees, ImmutableArray<int> Omitted, int At, SuffixFailure Why);

internal enum SuffixFailure { None, Unknown, OpenBracket, EmptyBracket, NestedBracket, StrayBracket, NothingAfterSlash, NothingLeft }

internal static class SuffixParser
{
    /// <summary>Reads a suffix in plain signs (see <see cref="SymbolSigns"/>). The longest first part that lets the whole be read wins.</summary>
    public static SuffixReading Read(string suffix)
    {
        SuffixReading? farthest = null;
        for (var length = Math.Min(suffix.Length, ChordTable.LongestSpelling); length >= 0; length--)
        {
            if (!ChordTable.BySpelling.TryGetValue(suffix[..length], out var first))
                continue;
            var reading = Modify(first, suffix, length);
            if (reading.At < 0)
                return reading;
            if (farthest is null || reading.At > farthest.At)
                farthest = reading;
        }
        return farthest!; // the empty spelling is in the table
    }

    private static SuffixReading Modify(ChordBase first, string suffix, int at)
    {
        var (degrees, omitted) = (first.Degrees.ToList(), new List<int>());
        var (open, fresh, dangling, last) = (-1, false, false, 0);
        SuffixReading Fail(int where, SuffixFailure why) => new(first, [], [], where, why);
        while (at < suffix.Length)
        {
            if (Match(suffix, at, open >= 0 || fresh) is { } found)
            {
                Apply(found.Modifier, degrees, omitted);
                (at, fresh, dangling, last) = (at + found.Length, false, false, at);
                continue;
            }
            switch (suffix[at])
            {
                case '(' or '[' when open >= 0: return Fail(at, SuffixFailure.NestedBracket);
                case '(' or '[': (open, fresh, dangling) = (at, true, true); break;
                case ')' or ']' when open < 0: return Fail(at, SuffixFailure.StrayBracket);
                case ')' or ']' when dangling: return Fail(at, SuffixFailure.EmptyBracket);
                case ')' or ']': (open, fresh) = (-1, false); break;
                case ',' or '/' when !dangling && at > 0 || suffix[at] == '/' && at == 0: (fresh, dangling) = (true, true); break;
                default: return Fail(at, SuffixFailure.Unknown);
            }
            at++;
        }
        if (open >= 0)
            return Fail(open, SuffixFailure.OpenBracket);
        if (dangling)
            return Fail(suffix.Length - 1, SuffixFailure.NothingAfterSlash);
        return Settle(degrees) is { IsEmpty: false } left ? new(first, left, [.. omitted], -1, SuffixFailure.None) : Fail(last, SuffixFailure.NothingLeft);
    }

    private static (ChordModifier Modifier, int Length)? Match(string suffix, int at, bool enclosed)
    {
        for (var length = Math.Min(suffix.Length - at, ModifierTable.LongestSpelling); length > 0; length--)
            if (ModifierTable.BySpelling.TryGetValue(suffix.Substring(at, length), out var modifier) && (enclosed || !modifier.Enclosed))
                return (modifier, length);
        return null;
    }

    private static void Apply(ChordModifier modifier, List<Degree> degrees, List<int> omitted)
    {
        switch (modifier.Kind)
        {
            case ModifierKind.Omit:
                var number = modifier.Degrees[0].Number;
                degrees.RemoveAll(d => d.Number == number);
                omitted.Add(number);
                return;
            case ModifierKind.Suspend when modifier.Enclosed && degrees.Contains(new(3, -1)): // m7(4) keeps its third
                degrees.Add(new(11, 0));
                return;
            case ModifierKind.Suspend:
                degrees.RemoveAll(d => d.Number == 3);
                break;
            case ModifierKind.Alter:
                degrees.RemoveAll(d => modifier.Degrees.Any(m => m.Number == d.Number && d.Alteration == 0 && d.Number != 7));
                break;
        }
        degrees.AddRange(modifier.Degrees);
    }

    // One tone, one degree: with a seventh the sixth is a thirteenth and the second a ninth; without, the other way round.
    internal static ImmutableArray<Degree> Settle(List<Degree> degrees)
    {
        var seventh = degrees.Any(d => d.Number == 7 && d.Alteration > -2);
        var sus = !degrees.Any(d => d.Number == 3);
        Degree Named(Degree d) => d.Number switch
        {
            6 when seventh && d.Alteration < 1 => new(13, d.Alteration),
            13 when !seventh => new(6, d.Alteration),
            2 when !sus => new(9, d.Alteration),
            11 when sus && d.Alteration == 0 && degrees.Contains(new(4, 0)) => new(4, 0),
            _ => d,
        };
        return [.. degrees.Select(Named).DistinctBy(d => d.Interval).OrderBy(d => d.Number).ThenBy(d => d.Alteration)];
    }
}

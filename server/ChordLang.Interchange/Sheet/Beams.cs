// The bars of a beam, level by level: which notes an eighth's, a sixteenth's, a thirty-second's beam joins.
namespace ChordLang.Interchange.Sheet;

/// <summary>Levels of beams.</summary>
internal static class Beams
{
    /// <summary>The stretches of one level; a note alone on its level has a stub towards its group.</summary>
    /// <param name="beam">The notes under the beam.</param>
    /// <param name="level">1 for the eighths' beam.</param>
    /// <param name="x">Where a note's stem stands.</param>
    /// <param name="stub">Length of a stub.</param>
    public static IEnumerable<(double From, double To)> Level(List<Stroke> beam, int level, Func<Stroke, double> x, double stub)
    {
        for (var i = 0; i < beam.Count; i++)
        {
            if (beam[i].Flags < level)
                continue;
            var from = i;
            while (i + 1 < beam.Count && beam[i + 1].Flags >= level)
                i++;
            if (i > from)
                yield return (x(beam[from]), x(beam[i]));
            else if (from == 0)
                yield return (x(beam[0]), x(beam[0]) + stub);
            else
                yield return (x(beam[from]) - stub, x(beam[from]));
        }
    }
}

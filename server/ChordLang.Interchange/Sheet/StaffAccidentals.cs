// Accidentals of one column, packed to the left of its heads from the outside in (common practice of engraving).
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws accidentals.</summary>
internal static class StaffAccidentals
{
    private const double Wide = 7.6;

    /// <summary>Draws those of a bar and answers how far to the left each column reaches.</summary>
    public static Dictionary<Rational, double> Draw(Canvas canvas, Skyline sky, Dictionary<Note, string> signs, IEnumerable<StaffChord> chords)
    {
        var reach = new Dictionary<Rational, double>();
        foreach (var column in chords.GroupBy(c => c.Stroke.Start))
        {
            var heads = column.SelectMany(c => c.Heads).ToList();
            var left = heads.Min(h => h.X) - Measure.Head;
            var lanes = new List<List<int>>();
            var signed = heads.Where(h => signs.ContainsKey(h.Note)).DistinctBy(h => (h.Step, signs[h.Note])).OrderByDescending(h => h.Step).ToList();
            // The highest, the lowest, the next highest: so that the outer ones stay near.
            var order = new List<StaffHead>();
            for (int i = 0, j = signed.Count - 1; i <= j; i++, j--)
            {
                order.Add(signed[i]);
                if (i < j)
                    order.Add(signed[j]);
            }
            foreach (var head in order)
            {
                var lane = lanes.FindIndex(l => l.All(step => Math.Abs(step - head.Step) >= 6));
                if (lane < 0)
                {
                    lane = lanes.Count;
                    lanes.Add([]);
                }
                lanes[lane].Add(head.Step);
                var glyph = GlyphTable.All[signs[head.Note]];
                var x = left - 1.4 - Wide * lane - glyph.Right * StaffPart.Space / GlyphTable.Space;
                canvas.Glyph(signs[head.Note], x, head.Y, StaffPart.Space);
                sky.Fill(x, head.Y + glyph.Top * StaffPart.Space / GlyphTable.Space, x + 7, head.Y + glyph.Bottom * StaffPart.Space / GlyphTable.Space);
            }
            reach[column.Key] = left - (lanes.Count > 0 ? 1.4 + Wide * lanes.Count : 0);
        }
        return reach;
    }
}

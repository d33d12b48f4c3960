// What stands above and below the strings for one event: accents and pauses, loudness, words, the right hand.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>Draws marks around the strings.</summary>
/// <param name="canvas">Where to.</param>
/// <param name="sky">What is filled already.</param>
/// <param name="alone">True where no staff bears the accents and pauses.</param>
internal sealed class TabMarks(Canvas canvas, Skyline sky, bool alone)
{
    public void Of(Event e, double x)
    {
        if (alone)
            Articulations.Above(canvas, sky, e, x);
        foreach (var mark in e.Marks)
            switch (mark)
            {
                // What holds on is not said again at every stroke; what is struck in another way is.
                case { Kind: MarkKind.Loudness or MarkKind.Pluck or MarkKind.Is or MarkKind.Remark or MarkKind.Unsure } when e.Repeated: break;
                case { Kind: MarkKind.Loudness, Operand: WordOperand loud }: Loudness(loud.Word, x); break;
                case { Kind: MarkKind.PalmMute }: Words("P.M.", Face.Plain, x); break;
                case { Kind: MarkKind.Pluck, Operand: WordOperand fingers }: Words(fingers.Word.Replace('-', ' '), Face.Remark, x); break;
                case { Kind: MarkKind.Is, Operand: SymbolOperand named }: Words("= " + named.Symbol.Text, Face.Remark, x); break;
                case { Kind: MarkKind.Remark, Operand: WordOperand remark }: Words(remark.Word, Face.Remark, x); break;
                case { Kind: MarkKind.Unsure }: Words("?", Face.Remark, x); break;
            }
    }

    private void Words(string words, Face face, double x)
    {
        var wide = face.Width(words);
        canvas.Text(x - 4, sky.Below(x - 4, x - 4 + wide, face.Size * 0.95, 3) + face.Size * 0.75, words, face);
    }

    private void Loudness(string word, double x)
    {
        const double space = 4.6;
        var names = word.Select(c => c switch { 'p' => "dynamicPiano", 'm' => "dynamicMezzo", _ => "dynamicForte" }).ToList();
        var wide = names.Sum(n => GlyphTable.All[n].Right * space / GlyphTable.Space);
        var y = sky.Below(x - 5, x - 5 + wide, 11, 3) + 8;
        var at = x - 5;
        foreach (var name in names)
        {
            canvas.Glyph(name, at, y, space);
            at += GlyphTable.All[name].Right * space / GlyphTable.Space;
        }
    }
}

/// <summary>Signs over a note: on the staff where there is one, else over the strings.</summary>
internal static class Articulations
{
    public static void Above(Canvas canvas, Skyline sky, Event e, double x)
    {
        const double space = 6;
        if (e.Has(MarkKind.Short))
            canvas.Circle(x, sky.Above(x - 2, x + 2, 3, 3) - 1.5, 1.3, "ink");
        if (e.Has(MarkKind.Accent))
            canvas.Glyph("articAccentAbove", x - 0.68 * space, sky.Above(x - 4, x + 4, 6, 2.5), space);
        if (e.Has(MarkKind.Fermata))
            canvas.Glyph("fermataAbove", x - 1.21 * space, sky.Above(x - 7, x + 7, 8, 3), space);
    }
}

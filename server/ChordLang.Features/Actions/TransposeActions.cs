// Transposes what is selected, chords and all.
using ChordLang.Arrangement.Transposing;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Actions;

internal static class TransposeActions
{
    private static readonly (int Semitones, string Words)[] Offered = [(1, "up a half step"), (-1, "down a half step"), (2, "up a whole step"), (-2, "down a whole step"), (12, "up an octave"), (-12, "down an octave")];

    public static IEnumerable<LessonAction> Of(Selection chosen)
    {
        if (chosen.Range.Length == 0 || !Enumerable.Range(chosen.FirstLine, chosen.LastLine - chosen.FirstLine + 1).Any(i => chosen.Piece.Tree.Lines[i] is ChartLine or RowLine))
            yield break;
        foreach (var (semitones, words) in Offered)
            yield return new($"transpose {semitones}", $"Transpose the selected lines {words}", ActionKind.Rewrite,
                () => Transposition.Edits(chosen.Piece, NewKey.By(chosen.Piece, semitones), chosen.FirstLine, chosen.LastLine)) { Costly = true };
    }
}

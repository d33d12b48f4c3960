// Short words for drawing lots.
using ChordLang.Testing;

namespace ChordLang.Fuzz.Generating;

internal static class Draw
{
    /// <summary>One of some.</summary>
    public static T Of<T>(this Dice dice, params T[] choices) => choices[dice.Next(choices.Length)];

    /// <summary>True in one case of so many.</summary>
    public static bool One(this Dice dice, int of) => dice.Next(of) == 0;
}

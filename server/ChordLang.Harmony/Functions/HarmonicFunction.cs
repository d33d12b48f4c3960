// The functions a chord can have in its key.
namespace ChordLang.Harmony.Functions;

/// <summary>What a chord does in its key.</summary>
public enum HarmonicFunction
{
    /// <summary>At rest, also in a passing key.</summary>
    Tonic,

    /// <summary>Moves away from the tonic or returns to it without a dominant.</summary>
    Subdominant,

    /// <summary>Pulls onward by falling fifths: a dominant or the chords that prepare it.</summary>
    Dominant,

    /// <summary>Stands for a dominant a tritone away.</summary>
    DominantSubstitute,

    /// <summary>Returns to the tonic from the flat seventh or by the minor subdominant.</summary>
    Backdoor,

    /// <summary>Joins two chords by step and claims nothing of its own.</summary>
    Passing,

    /// <summary>Colours the chord around it and goes back to it.</summary>
    Colour,
}

/// <summary>What functions are called.</summary>
public static class FunctionNouns
{
    /// <summary>The function as a noun that takes "a": <c>dominant</c>, <c>passing chord</c>.</summary>
    public static string Noun(this HarmonicFunction function) => function switch
    {
        HarmonicFunction.DominantSubstitute => "substitute of a dominant",
        HarmonicFunction.Backdoor => "way home by the back door",
        HarmonicFunction.Passing => "passing chord",
        HarmonicFunction.Colour => "colour of its neighbours",
        _ => function.ToString().ToLowerInvariant(),
    };
}

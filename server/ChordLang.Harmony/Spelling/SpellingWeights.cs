// The weights of the spelling model in arrays, because they are read some hundred times a note.
using ChordLang.Harmony.Weights;

namespace ChordLang.Harmony.Spelling;

/// <summary>Weights by feature number. Blocks are ranges of numbers; the table names them <c>block place</c>.</summary>
internal sealed class SpellingWeights
{
    /// <summary>Farthest places on the line of fifths that are told apart, and how many places there are.</summary>
    public const int Far = 15, Places = 2 * Far + 1;

    /// <summary>Steps that are told apart: none, down 2, down 1, the same, up 1, up 2 semitones.</summary>
    public const int Steps = 6;

    /// <summary>Blocks in the order of their numbers; the last holds the two steps, before and after, with what the note is to the signature.</summary>
    public static readonly string[] Blocks =
    [
        "home", "passing", "together", "just before", "just after", "before", "after", "same before", "same after",
        "from -2", "from -1", "from 0", "from 1", "from 2", "from leap", "to -2", "to -1", "to 0", "to 1", "to 2", "to leap", "turn",
    ];

    /// <summary>The features of a chromatic line: it climbs and the note is raised or of the signature, it falls and the note is lowered or of it.</summary>
    public static readonly int Climb = (Blocks.Length - 1) * Places + 3 * Steps * Steps, Fall = Climb + 1;

    /// <summary>Number of features.</summary>
    public static readonly int Length = Fall + 1;

    private readonly double[] weights = new double[Length];
    private readonly double[] fit = new double[12];

    public SpellingWeights(WeightTable table)
    {
        for (var i = 0; i < Length; i++)
            weights[i] = table[Name(i)];
        for (var i = 0; i < fit.Length; i++)
            fit[i] = table[$"fit {i}"];
        (Change, PerFifth, FromHome, Signs) = (table["path change"], table["path fifth"], table["path home"], table["path signs"]);
        (ChordTone, ChordOther) = (table["chord tone"], table["chord other"]);
    }

    /// <summary>Costs of the path of signatures: of any change, of each fifth of it, and of each fifth away from the signature in force.</summary>
    public double Change { get; }

    public double PerFifth { get; }

    public double FromHome { get; }

    /// <summary>Cost of each sharp or flat of a signature past the usual ones, a note.</summary>
    public double Signs { get; }

    /// <summary>What the chord in force has to say: of a tone it asks for, of any other.</summary>
    public double ChordTone { get; }

    public double ChordOther { get; }

    public double this[int feature]
    {
        get => weights[feature];
        set => weights[feature] = value;
    }

    /// <summary>Log share of a pitch class (or MIDI number) in music of a signature.</summary>
    public double Fit(int pitch, int signature) => fit[((7 * pitch - signature) % 12 + 12) % 12];

    /// <summary>The number of a feature.</summary>
    public static int At(int block, int place) => block * Places + Math.Clamp(place, -Far, Far) + Far;

    /// <summary>The number of the feature of two steps. <paramref name="side"/>: 0 lowered, 1 in the signature, 2 raised.</summary>
    public static int Turn(int before, int after, int side) => (Blocks.Length - 1) * Places + (before * Steps + after) * 3 + side;

    /// <summary>The name of a feature in the table.</summary>
    public static string Name(int feature)
    {
        if (feature >= Climb)
            return feature == Climb ? "chromatic climb" : "chromatic fall";
        var block = Math.Min(feature / Places, Blocks.Length - 1);
        var place = feature - block * Places;
        return block < Blocks.Length - 1 ? $"{Blocks[block]} {place - Far}" : $"turn {Step(place / 3 / Steps)} {Step(place / 3 % Steps)} {Sides[place % 3]}";
    }

    private static readonly string[] Sides = ["lowered", "own", "raised"];

    private static string Step(int step) => step == 0 ? "leap" : (step - 3).ToString(System.Globalization.CultureInfo.InvariantCulture);
}

// What a user can choose of how features show themselves: one plain record that an editor's settings and a project's file both fill.
namespace ChordLang.Features.Choices;

/// <summary>The choices, with their defaults.</summary>
public sealed record EditorChoices
{
    /// <summary>The hints between the words.</summary>
    public HintChoices Hints { get; init; } = new();

    /// <summary>True to show above a shape how often it is used.</summary>
    public bool Lenses { get; init; } = true;

    /// <summary>How many voicings completion proposes, 0 to 40.</summary>
    public int Voicings { get; init; } = 8;
}

/// <summary>Which hints are shown; those that repeat what a word says are off until asked for.</summary>
/// <param name="BarNumbers">The number of each bar before its bar line.</param>
/// <param name="Numerals">The roman numeral behind each chord symbol.</param>
/// <param name="Names">The name of a voicing where no chord symbol stands for it.</param>
/// <param name="Places">Where a pitch without a string would be played.</param>
/// <param name="Pitches">What written frets sound.</param>
public sealed record HintChoices(bool BarNumbers = true, bool Numerals = true, bool Names = true, bool Places = false, bool Pitches = false);

// The names of all troubles that binding can see, in one place, for they are permanent.
using System.Collections.Immutable;

namespace ChordLang.Arrangement.Binding;

/// <summary>The names of troubles, each with a title of one line. Each is the name of a check with a page of its own.</summary>
public static class TroubleCodes
{
    public const string UnknownShape = "text-unknown-shape";
    public const string UnusedShape = "text-unused-shape";
    public const string DoubledShape = "text-doubled-shape";
    public const string UseRefused = "text-use-refused";
    public const string UnknownChord = "text-unknown-chord";
    public const string ValueOutOfRange = "text-value-out-of-range";
    public const string DoubledSetting = "text-doubled-setting";
    public const string DoubledSection = "form-doubled-section";
    public const string UnknownSection = "form-unknown-section";
    public const string BarsUnderAgain = "form-bars-under-again";
    public const string UnbalancedRepeat = "form-unbalanced-repeat";
    public const string EndingNumber = "form-ending-number";
    public const string LeapNowhere = "form-leap-nowhere";
    public const string DoubledSign = "form-doubled-sign";
    public const string TooLong = "form-too-long";
    public const string MisplacedPickup = "form-misplaced-pickup";
    public const string RowsUnderSeveralBars = "form-rows-under-several-bars";
    public const string RowWithoutBar = "form-row-without-bar";
    public const string DoubledVoice = "form-doubled-voice";
    public const string NothingToRepeat = "form-nothing-to-repeat";
    public const string BarSignNotAlone = "form-bar-sign-not-alone";
    public const string RepeatedBarDiffers = "form-repeated-bar-differs";
    public const string OutsideBar = "count-outside-bar";
    public const string OutOfOrder = "count-out-of-order";
    public const string Twice = "count-twice";
    public const string RunDoesNotFit = "count-run-does-not-fit";
    public const string Sharing = "count-sharing";
    public const string NothingBefore = "count-nothing-before";
    public const string Slots = "fret-slots";
    public const string OffNeck = "fret-off-neck";
    public const string NoSuchString = "fret-no-such-string";
    public const string OutOfReach = "fret-out-of-reach";
    public const string TwoOnOneString = "fret-two-on-one-string";
    public const string SidesDiffer = "fret-sides-differ";
    public const string OpenShape = "fret-open-shape";
    public const string NothingPlayed = "fret-nothing-played";
    public const string MarkOffString = "fret-mark-off-string";
    public const string Fingers = "fret-fingers";

    /// <summary>Every name with its title, in the order of the pages.</summary>
    public static ImmutableArray<(string Code, string Title)> Titles { get; } =
    [
        (UnknownShape, "A shape that is defined nowhere"),
        (UnusedShape, "A shape that nothing uses"),
        (DoubledShape, "Two shapes of one name"),
        (UseRefused, "A file that cannot be used"),
        (UnknownChord, "A chord symbol that is not understood"),
        (ValueOutOfRange, "A setting's value that does not go with the instrument"),
        (DoubledSetting, "A setting written twice for the same bar"),
        (DoubledSection, "Two sections of one name"),
        (UnknownSection, "A section to be played again that does not stand before"),
        (BarsUnderAgain, "Bars under a section that is only played again"),
        (UnbalancedRepeat, "A repeat, ending or end without its partner"),
        (EndingNumber, "Endings that do not go with the number of times"),
        (LeapNowhere, "A leap without its goal, or a sign without a leap"),
        (DoubledSign, "A sign of the form that stands twice"),
        (TooLong, "A form that unfolds to too many bars"),
        (MisplacedPickup, "A pickup where none can be"),
        (RowsUnderSeveralBars, "Played rows under a line of several bars"),
        (RowWithoutBar, "A played row without a bar above it"),
        (DoubledVoice, "Two rows of one bar with the same label"),
        (NothingToRepeat, "A bar to be repeated that does not exist"),
        (BarSignNotAlone, "A repeated bar with other chords beside it"),
        (RepeatedBarDiffers, "A bar repeated in another length"),
        (OutsideBar, "A count outside its bar"),
        (OutOfOrder, "Counts out of order"),
        (Twice, "The same count twice in one row"),
        (RunDoesNotFit, "A run whose number of sounds does not fit"),
        (Sharing, "Chords that cannot share their bar evenly"),
        (NothingBefore, "A tie or an again with no sound before it"),
        (Slots, "Frets for another number of strings"),
        (OffNeck, "A fret that the neck does not have"),
        (NoSuchString, "A string that the instrument does not have"),
        (OutOfReach, "A pitch that the strings do not reach"),
        (TwoOnOneString, "Two notes on one string"),
        (SidesDiffer, "Two descriptions of different sounds"),
        (OpenShape, "A shape with open strings cannot move"),
        (NothingPlayed, "Frets of which no string is played"),
        (MarkOffString, "A mark for a string that is not played"),
        (Fingers, "Fingers for another number of strings"),
    ];
}

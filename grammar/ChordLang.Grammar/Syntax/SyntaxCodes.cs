// The names of all findings that reading a line can give, in one place, for they are permanent.
using System.Collections.Immutable;

namespace ChordLang.Grammar.Syntax;

/// <summary>The names of syntax findings, each with a title of one line.</summary>
public static class SyntaxCodes
{
    public const string Unreadable = "text-unreadable";
    public const string Typing = "text-typing";
    public const string MergeMarker = "text-merge-marker";
    public const string UnknownSetting = "text-unknown-setting";
    public const string BadValue = "text-bad-value";
    public const string BadCount = "text-bad-count";
    public const string MissingCount = "text-missing-count";
    public const string MissingSound = "text-missing-sound";
    public const string MissingReason = "text-missing-reason";
    public const string ChordInRow = "text-chord-in-row";
    public const string SoundAsName = "text-sound-as-name";
    public const string UnknownMark = "text-unknown-mark";
    public const string MarkOperand = "text-mark-operand";
    public const string OpenQuote = "text-open-quote";
    public const string Octave = "text-octave";
    public const string ShapeName = "text-shape-name";
    public const string RepeatSign = "form-repeat-sign";

    /// <summary>Every name with its title, in the order of the pages.</summary>
    public static ImmutableArray<(string Code, string Title)> Titles { get; } =
    [
        (Unreadable, "A part of the line cannot be read"),
        (Typing, "A sign or a capital that a phone or mail program put in"),
        (MergeMarker, "A merge was not finished"),
        (UnknownSetting, "The first word of a line is not known"),
        (BadValue, "What stands behind the first word cannot be read"),
        (BadCount, "A count that nobody can count"),
        (MissingCount, "A sound without its count"),
        (MissingSound, "A count without a sound"),
        (MissingReason, "A finding is silenced without a reason"),
        (ChordInRow, "A chord symbol where a sound belongs"),
        (SoundAsName, "A sound where a chord symbol belongs"),
        (UnknownMark, "A word behind a sound is no mark"),
        (MarkOperand, "A mark lacks what it takes"),
        (OpenQuote, "A quote is left open"),
        (Octave, "The first pitch of a row has no octave"),
        (ShapeName, "A shape has a name that would be read as something else"),
        (RepeatSign, "A double bar or repeat sign in the text"),
    ];
}

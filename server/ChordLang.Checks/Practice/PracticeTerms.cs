// How hard a bar likely is: a table of weights, each of a number that can be read off the bar.
using System.Collections.Immutable;

namespace ChordLang.Checks.Practice;

/// <summary>What a score is made of; also what a hint speaks about.</summary>
public enum PracticeSubject
{
    /// <summary>How wide the hand opens, and how many fingers it sets.</summary>
    Stretch,
    /// <summary>How far it travels.</summary>
    Shift,
    /// <summary>How often fingers are set anew.</summary>
    Changes,
    /// <summary>How much has to ring on meanwhile.</summary>
    Holds,
    /// <summary>How fast it goes.</summary>
    Tempo,
}

/// <summary>A row: a number of the bar and what one of it adds to the score.</summary>
/// <param name="Subject">Which part of the score.</param>
/// <param name="Name">What is counted.</param>
/// <param name="Weight">What one of it adds; never negative, so that more of anything never lowers a score.</param>
/// <param name="Amount">How much of it a bar has.</param>
public sealed record PracticeTerm(PracticeSubject Subject, string Name, double Weight, Func<PracticeNumbers, double> Amount)
{
    /// <summary>
    /// The table. Source: ours. No published scale of difficulty by bar is built on; the weights were set so that a bar that fills one of the
    /// five subjects to what the trade calls the edge of comfort (a hand opened to its ease, a shift of an octave in a bar, four fingers set
    /// anew a second, a note that rings through a bar of quarters, six notes a second) adds about 15.
    /// </summary>
    public static ImmutableArray<PracticeTerm> Table { get; } =
    [
        new(PracticeSubject.Stretch, "square of the widest grip over what the hand holds at ease", 12, n => n.Span / n.AtEase * (n.Span / n.AtEase)),
        new(PracticeSubject.Stretch, "the most fingers in one grip", 1, n => n.Fingers),
        new(PracticeSubject.Shift, "10 mm of travel", 0.25, n => n.Travel / 10),
        new(PracticeSubject.Shift, "10 mm of travel a second", 0.75, n => n.Travel / n.Seconds / 10),
        new(PracticeSubject.Changes, "a finger set anew", 0.3, n => n.Changes),
        new(PracticeSubject.Changes, "a finger set anew each second", 3, n => n.Changes / n.Seconds),
        new(PracticeSubject.Holds, "a strike under a fretted note that rings on", 4, n => n.Holds),
        new(PracticeSubject.Holds, "a strike beside an open string that rings on", 1, n => n.OpenHolds),
        new(PracticeSubject.Tempo, "a strike each second", 2.5, n => n.Strikes / n.Seconds),
    ];
}

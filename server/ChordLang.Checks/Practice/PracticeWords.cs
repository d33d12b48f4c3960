// Puts the numbers of a bar into words that read well aloud and claim no more than is known: likely, never certainly.
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Practice;

/// <summary>Words for practice spots.</summary>
internal static class PracticeWords
{
    /// <summary>What a subject asks of the hand in a bar; empty where it asks nothing worth a word.</summary>
    public static string Reason(PracticeSubject subject, PracticeNumbers n) => subject switch
    {
        PracticeSubject.Stretch when n.Frets.High == 0 => "",
        PracticeSubject.Stretch => $"stretch: {Grip(n)}, {Many(n.Fingers, "finger")} at most",
        PracticeSubject.Shift when n.Shift is { } s =>
            $"shift: {n.Travel:0} mm along the neck, the longest from position {s.From} to position {s.To}, {s.Millimetres:0} mm, on count {CountSyntax.Write(n.ShiftAt)}, "
            + $"with {n.ShiftSeconds:0.00} seconds for it (likely needed: about {s.Seconds:0.00})",
        PracticeSubject.Changes => $"finger changes: {n.Changes}, or {n.Changes / n.Seconds:0.0} a second",
        PracticeSubject.Holds => "ring holds: " + string.Join(" and ", Held(n)),
        PracticeSubject.Tempo => $"tempo: {Many(n.Strikes, "stroke")} in {n.Seconds:0.0} seconds at {(n.Assumed ? "about " : "")}{n.Tempo:0} beats a minute{(n.Assumed ? " (taken, the piece leaves it open)" : "")}",
        _ => "",
    };

    /// <summary>A way to practise it, by the subject that weighs most; or, of what no hand can hold, to change it first.</summary>
    public static string Hint(PracticeNumbers n, IReadOnlyList<PracticeSubject> subjects) => n.Beyond is { } beyond
        ? $"No fingering reaches what is held on count {CountSyntax.Write(beyond)}. Do not train it: choose another grip, let a note end sooner, or leave one out."
        // A grip that lies at ease is no stretch to work on, however many fingers it takes.
        : Way(subjects.FirstOrDefault(s => s != PracticeSubject.Stretch || n.Span > n.AtEase, subjects.Count > 0 ? subjects[0] : PracticeSubject.Tempo));

    // Source: ours, from common practice in lessons.
    private static string Way(PracticeSubject subject) => subject switch
    {
        PracticeSubject.Stretch => "Set the outer fingers first, then the inner ones, and let go between two tries. Where the hand tires, rest.",
        PracticeSubject.Shift => "Play only the last grip before the shift and the first one after it, slowly, with the eyes on the fret that the hand travels to.",
        PracticeSubject.Changes => "Change from grip to grip without striking, slowly, and look for a finger that can stay or slide along its string.",
        PracticeSubject.Holds => "Strike the note that rings alone, keep its finger down, and add the other voice note by note while it sounds.",
        _ => "Start at half the tempo and go faster by four beats a minute only when it went well three times.",
    };

    private static string Grip(PracticeNumbers n) => n.Frets.Low == n.Frets.High ? $"all on fret {n.Frets.Low} at the widest"
        : $"{n.Span:0} mm between frets {n.Frets.Low} and {n.Frets.High} on count {CountSyntax.Write(n.SpanAt)} (at ease: {n.AtEase:0} mm)";

    private static IEnumerable<string> Held(PracticeNumbers n)
    {
        if (n.Holds > 0)
            yield return $"{n.Holds}, counting each fretted note that rings on at each stroke under it";
        if (n.OpenHolds > 0)
            yield return $"{n.OpenHolds} beside open strings that ring on";
    }

    private static string Many(int n, string one) => n == 1 ? $"1 {one}" : $"{n} {one}s";
}

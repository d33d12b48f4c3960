// The harmony of a lesson, and how one version of it serves the next: most edits leave the chart as it was.
using System.Collections.Immutable;
using ChordLang.Checks.Charts;
using ChordLang.Grammar.Text;
using ChordLang.Harmony.Charts;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Skeleton;

namespace ChordLang.Features.Lessons;

/// <summary>The harmony of a lesson.</summary>
/// <param name="Written">Its chart and the places of its chords.</param>
/// <param name="Keys">Its keys.</param>
/// <param name="Functions">What each chord does.</param>
public sealed record LessonHarmony(WrittenChart Written, KeyPlan Keys, ImmutableArray<ChordFunction> Functions)
{
    // What the functions were told by: the next version takes over what is said of chords among the same others.
    private WeighedChart? Weighed { get; init; }

    private readonly Lazy<ChordSkeleton> skeleton = new(() => SkeletonReader.Read(Written.Chart, Keys));

    /// <summary>What remains without decoration.</summary>
    public ChordSkeleton Skeleton => skeleton.Value;

    internal static LessonHarmony Of(Lesson lesson, LessonMemory? memory)
    {
        if (memory?.Harmony is { } kept && kept.For(lesson) is { } moved)
            return (memory.Harmony = moved).Harmony;
        var written = WrittenChart.Of(lesson.Chart.Piece);
        var last = memory?.Harmony?.Harmony;
        var harmony = last is not null && Same(last.Written, written) ? last with { Written = written } : Read(written, last);
        if (memory is not null)
            memory.Harmony = new(lesson.Tree, lesson.Library?.Defaults, harmony);
        return harmony;
    }

    private static LessonHarmony Read(WrittenChart written, LessonHarmony? before)
    {
        var keys = KeyFinder.Find(written.Chart, written.Given);
        var weighed = new WeighedChart(KeyedChart.Of(written.Chart, keys), before?.Weighed);
        return new(written, keys, FunctionReader.Of(weighed, keys)) { Weighed = weighed };
    }

    /// <summary>The index of the chord whose symbol stands at a span, or -1.</summary>
    public int IndexAt(Span span)
    {
        for (var i = 0; i < Written.Places.Length; i++)
            if (Written.Places[i].Span == span)
                return i;
        return -1;
    }

    // All that harmony is worked out from; what a symbol means hangs on the symbol alone.
    private static bool Same(WrittenChart a, WrittenChart b)
    {
        if (a.Chart.Counts != b.Chart.Counts || a.Chart.Chords.Length != b.Chart.Chords.Length || !a.Given.AsSpan().SequenceEqual(b.Given.AsSpan()))
            return false;
        for (var i = 0; i < a.Chart.Chords.Length; i++)
            if (!Same(a.Chart.Chords[i], b.Chart.Chords[i]))
                return false;
        return true;
    }

    private static bool Same(ChartChord a, ChartChord b) => a.Bar == b.Bar && a.Onset == b.Onset && a.Duration == b.Duration && a.Chord.Symbol == b.Chord.Symbol;
}

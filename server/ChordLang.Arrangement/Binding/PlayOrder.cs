// Plays the form through, bar by bar, as players do.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>
/// Unfolds the form. After da capo or dal segno repeats are not taken again, and their last ending is played (common practice); fine and
/// to coda count only then. Each leap back is taken once.
/// </summary>
internal static class PlayOrder
{
    /// <summary>The most bars that a form may unfold to.</summary>
    public const int MostBars = 20_000;

    private const int MostSteps = 400_000;

    /// <summary>Indices of bars as played; empty where the form does not hold together.</summary>
    public static ImmutableArray<int> Of(Form form, ImmutableArray<SectionPlan> sections, TroubleList troubles)
    {
        if (!form.Holds)
            return [];
        var order = ImmutableArray.CreateBuilder<int>();
        var pass = new Dictionary<int, int>();
        var inEnding = new Dictionary<int, int>();
        var taken = new HashSet<int>();
        bool leapt = false, toFine = false, toCoda = false;
        (int Back, int End)? called = null;
        var at = 0;
        for (var count = 0; count < MostSteps && order.Count < MostBars; count++)
        {
            if (called is { } call && at >= call.End)
                (at, called) = (call.Back, null);
            if (at >= form.Steps.Length)
                return order.ToImmutable();
            var step = form.Steps[at];
            if (step.Kind == StepKind.Bar)
                order.Add(step.Index);
            if (step.Kind == StepKind.Again)
            {
                called = (at + 1, sections[step.Index].EndStep);
                at = sections[step.Index].FirstStep;
                continue;
            }
            if (step.Kind == StepKind.Word)
                switch (step.Word)
                {
                    case FormKind.Repeat:
                        pass[at] = leapt ? step.Number : 1;
                        inEnding[at] = 0;
                        break;
                    case FormKind.Ending when RepeatOf(form, at) is var repeat && repeat >= 0 && pass.TryGetValue(repeat, out var time):
                        if (inEnding[repeat] > 0)
                        {
                            at = form.Partner[repeat];
                            continue;
                        }
                        if (step.Number != time)
                        {
                            at = form.Partner[at];
                            continue;
                        }
                        inEnding[repeat] = time;
                        break;
                    case FormKind.End when form.Partner[at] is var repeat && repeat >= 0 && pass.TryGetValue(repeat, out var time)
                        && time < form.Steps[repeat].Number && Inside(called, sections, repeat, at):
                        pass[repeat] = time + 1;
                        inEnding[repeat] = 0;
                        at = repeat + 1;
                        continue;
                    case FormKind.Fine when toFine:
                        return order.ToImmutable();
                    case FormKind.ToCoda when toCoda && form.Find(FormKind.Coda) is var coda && coda >= 0:
                        (at, toCoda, called) = (coda, false, null);
                        continue;
                    case FormKind.DaCapo or FormKind.DaCapoAlFine or FormKind.DaCapoAlCoda or FormKind.DalSegno or FormKind.DalSegnoAlFine or FormKind.DalSegnoAlCoda
                        when taken.Add(at):
                        leapt = true;
                        toCoda = step.Word is FormKind.DaCapoAlCoda or FormKind.DalSegnoAlCoda;
                        toFine = !toCoda;
                        at = step.Word is FormKind.DaCapo or FormKind.DaCapoAlFine or FormKind.DaCapoAlCoda ? 0 : form.Find(FormKind.Segno);
                        called = null;
                        pass.Clear();
                        inEnding.Clear();
                        continue;
                }
            at++;
        }
        if (at < form.Steps.Length)
            troubles.Add(form.Steps[^1].Line, TroubleCodes.TooLong, default, $"With all its repeats this piece has more than {MostBars} bars, and only so many are played. Look at the numbers behind repeat.");
        return order.ToImmutable();
    }

    // A section played again may hold only the end of a repeat that began before it; such an end is passed by.
    private static bool Inside((int Back, int End)? called, ImmutableArray<SectionPlan> sections, int repeat, int end) =>
        called is not { } call || sections.Any(s => s.Of is null && s.EndStep == call.End && repeat >= s.FirstStep && end < s.EndStep);

    // The repeat that an ending belongs to: its chain of partners leads to the end, and that to the repeat.
    private static int RepeatOf(Form form, int ending)
    {
        var at = ending;
        while (form.Steps[at] is { Kind: StepKind.Word, Word: FormKind.Ending } && form.Partner[at] is var next && next > at)
            at = next;
        return form.Steps[at] is { Kind: StepKind.Word, Word: FormKind.End } ? form.Partner[at] : -1;
    }
}

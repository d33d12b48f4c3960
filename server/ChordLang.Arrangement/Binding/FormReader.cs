// Checks that the words of the form go together, and finds the partner of each.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>The form, ready to be played through.</summary>
/// <param name="Steps">Its steps.</param>
/// <param name="Partner">For a repeat its <c>end</c>; for an ending the step where the next ending or the <c>end</c> stands; for an end its repeat; else -1.</param>
/// <param name="Holds">True where everything has its partner.</param>
internal sealed record Form(ImmutableArray<Step> Steps, ImmutableArray<int> Partner, bool Holds)
{
    /// <summary>The step of a sign that stands once, or -1.</summary>
    public int Find(FormKind kind)
    {
        for (var i = 0; i < Steps.Length; i++)
            if (Steps[i] is { Kind: StepKind.Word } step && step.Word == kind)
                return i;
        return -1;
    }
}

/// <summary>Reads the form of a piece.</summary>
internal sealed class FormReader
{
    private readonly SyntaxTree tree;
    private readonly ImmutableArray<Step> steps;
    private readonly TroubleList troubles;
    private readonly int[] partner;
    private bool holds = true;

    private FormReader(SyntaxTree tree, ImmutableArray<Step> steps, TroubleList troubles)
    {
        (this.tree, this.steps, this.troubles, partner) = (tree, steps, troubles, new int[steps.Length]);
        Array.Fill(partner, -1);
    }

    /// <summary>Reads the form; what does not go together is told.</summary>
    public static Form Read(SyntaxTree tree, ImmutableArray<Step> steps, TroubleList troubles)
    {
        var reader = new FormReader(tree, steps, troubles);
        reader.Pair();
        reader.Signs();
        return new(steps, [.. reader.partner], reader.holds);
    }

    private void Pair()
    {
        var open = new Stack<(int Repeat, List<int> Endings)>();
        for (var i = 0; i < steps.Length; i++)
        {
            if (steps[i].Kind != StepKind.Word)
                continue;
            switch (steps[i].Word)
            {
                case FormKind.Repeat:
                    open.Push((i, []));
                    break;
                case FormKind.Ending when open.Count == 0:
                    Tell(i, TroubleCodes.UnbalancedRepeat, "This ending belongs to no repeat. Write repeat where the part that is played again begins.");
                    break;
                case FormKind.Ending:
                    if (open.Peek().Endings is [.., var before])
                        partner[before] = i;
                    open.Peek().Endings.Add(i);
                    break;
                case FormKind.End when open.Count == 0:
                    Tell(i, TroubleCodes.UnbalancedRepeat, "This end closes nothing. Write repeat where the part that is played again begins, or take the end out.");
                    break;
                case FormKind.End:
                    var (repeat, endings) = open.Pop();
                    (partner[repeat], partner[i]) = (i, repeat);
                    if (endings is [.., var last])
                        partner[last] = i;
                    Endings(repeat, endings);
                    break;
            }
        }
        foreach (var (repeat, _) in open.Reverse())
            Tell(repeat, TroubleCodes.UnbalancedRepeat, "This repeat is never closed. Write end behind the last bar that is played again.");
    }

    private void Endings(int repeat, List<int> endings)
    {
        var times = steps[repeat].Number;
        var seen = new HashSet<int>();
        foreach (var i in endings)
            if (!seen.Add(steps[i].Number))
                Tell(i, TroubleCodes.EndingNumber, $"There are two endings {steps[i].Number} in this repeat. Number them 1, 2 and so on.");
            else if (steps[i].Number < 1 || steps[i].Number > times)
                Tell(i, TroubleCodes.EndingNumber, $"The repeat is played {times} times, so ending {steps[i].Number} is never reached. Write repeat {steps[i].Number}, or number the ending anew.");
        var missing = Enumerable.Range(1, times).FirstOrDefault(n => !seen.Contains(n));
        if (endings.Count > 0 && missing > 0 && endings.All(i => steps[i].Number <= times) && seen.Count == endings.Count)
            Tell(repeat, TroubleCodes.EndingNumber, $"The repeat is played {times} times, but it has no ending {missing}. Write one ending for each time.");
    }

    private void Signs()
    {
        var first = new Dictionary<FormKind, int>();
        for (var i = 0; i < steps.Length; i++)
            if (steps[i] is { Kind: StepKind.Word, Word: var word } && !first.TryAdd(word, i) && word is FormKind.Segno or FormKind.Coda or FormKind.ToCoda or FormKind.Fine)
                Tell(i, TroubleCodes.DoubledSign, $"{Words(word)} stands in line {steps[first[word]].Line + 1} already, so nobody can tell which of the two is meant. Keep one.");
        bool Has(params ReadOnlySpan<FormKind> kinds)
        {
            foreach (var kind in kinds)
                if (first.ContainsKey(kind))
                    return true;
            return false;
        }
        bool segno = Has(FormKind.DalSegno, FormKind.DalSegnoAlFine, FormKind.DalSegnoAlCoda), back = segno || Has(FormKind.DaCapo, FormKind.DaCapoAlFine, FormKind.DaCapoAlCoda);
        for (var i = 0; i < steps.Length; i++)
        {
            if (steps[i].Kind != StepKind.Word)
                continue;
            var word = steps[i].Word;
            var message = word switch
            {
                FormKind.DalSegno or FormKind.DalSegnoAlFine or FormKind.DalSegnoAlCoda when !first.TryGetValue(FormKind.Segno, out var at) || at > i =>
                    "There is no segno above to go back to. Write segno on a line of its own before the bar where one begins again.",
                FormKind.DaCapoAlFine or FormKind.DalSegnoAlFine when !Has(FormKind.Fine) => "There is no fine to end at. Write fine on a line of its own behind the last bar.",
                FormKind.DaCapoAlCoda or FormKind.DalSegnoAlCoda when !Has(FormKind.ToCoda) => "Nothing says where to leave for the coda. Write to coda on a line of its own behind the bar from which one leaps.",
                FormKind.DaCapoAlCoda or FormKind.DalSegnoAlCoda when !Has(FormKind.Coda) => "There is no coda to go to. Write coda on a line of its own before the bar where it begins.",
                FormKind.ToCoda when !Has(FormKind.Coda) => "There is no coda to go to. Write coda on a line of its own before the bar where it begins.",
                FormKind.ToCoda when !Has(FormKind.DaCapoAlCoda, FormKind.DalSegnoAlCoda) => "Nobody is sent back here to leap to the coda. Write da capo al coda or dal segno al coda where one goes back.",
                FormKind.Coda when !Has(FormKind.ToCoda, FormKind.DaCapoAlCoda, FormKind.DalSegnoAlCoda) => "Nothing leads to this coda. Write to coda where one leaps, and da capo al coda or dal segno al coda where one goes back; or call the part a section.",
                FormKind.Segno when !segno => "Nothing goes back to this segno. Write dal segno where one does, or take it out.",
                FormKind.Fine when !back => "Nothing goes back, so the piece does not end at this fine. Write da capo al fine where one goes back, or take it out.",
                _ => null,
            };
            if (message is not null)
                Tell(i, TroubleCodes.LeapNowhere, message);
        }
    }

    private void Tell(int step, string code, string message)
    {
        holds = false;
        troubles.Add(steps[step].Line, code, OutlineReader.Whole(tree.Lines[steps[step].Line]), message);
    }

    private static string Words(FormKind kind) => kind switch
    {
        FormKind.Segno => "segno", FormKind.Coda => "coda", FormKind.ToCoda => "to coda", _ => "fine",
    };
}

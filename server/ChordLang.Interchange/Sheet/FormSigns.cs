// The form as it stands at the bar lines: repeats, endings, and the words that send the player elsewhere.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.Sheet;

/// <summary>What stands at the lines of one bar.</summary>
internal sealed class BarSigns
{
    public bool RepeatStart { get; set; }

    public bool RepeatEnd { get; set; }

    /// <summary>How often a repeat is played, where that is more than twice; else 0.</summary>
    public int Times { get; set; }

    /// <summary>The number of an ending that begins here; else 0.</summary>
    public int Ending { get; set; }

    public bool EndingStops { get; set; }

    /// <summary>True for the last bar of an ending that is followed by others, whose bracket is closed.</summary>
    public bool EndingCloses { get; set; }

    /// <summary>SMuFL names of signs over the bar's start.</summary>
    public List<string> Start { get; } = [];

    /// <summary>Words over the bar's end.</summary>
    public List<string> End { get; } = [];
}

/// <summary>Reads the form lines of a piece.</summary>
internal sealed class FormSigns
{
    private static readonly BarSigns Nothing = new();
    private readonly Dictionary<int, BarSigns> at = [];
    private readonly int[] inside;

    public FormSigns(Piece piece)
    {
        var ending = 0;
        var times = new Stack<int>();
        for (var i = 0; i < piece.Tree.Lines.Length; i++)
        {
            if (piece.Tree.Lines[i] is not FormLine form)
                continue;
            var next = piece.Bars.FirstOrDefault(b => b.Line > i)?.Index;
            var last = piece.Bars.LastOrDefault(b => b.Line < i)?.Index;
            switch (form.Kind)
            {
                case FormKind.Repeat:
                    times.Push(form.Number);
                    Put(next, s => s.RepeatStart = true);
                    break;
                case FormKind.Ending:
                    if (ending > 0)
                        Close(last, ending, 0);
                    ending = form.Number;
                    Put(next, s => s.Ending = form.Number);
                    break;
                case FormKind.End:
                    Close(last, ending, times.TryPop(out var n) ? n : 2);
                    ending = 0;
                    break;
                case FormKind.Segno: Put(next, s => s.Start.Add("segno")); break;
                case FormKind.Coda: Put(next, s => s.Start.Add("coda")); break;
                case FormKind.ToCoda: Say(last, "To Coda"); break;
                case FormKind.Fine: Say(last, "Fine"); break;
                case FormKind.DaCapo: Say(last, "D.C."); break;
                case FormKind.DaCapoAlFine: Say(last, "D.C. al Fine"); break;
                case FormKind.DaCapoAlCoda: Say(last, "D.C. al Coda"); break;
                case FormKind.DalSegno: Say(last, "D.S."); break;
                case FormKind.DalSegnoAlFine: Say(last, "D.S. al Fine"); break;
                case FormKind.DalSegnoAlCoda: Say(last, "D.S. al Coda"); break;
            }
        }
        inside = new int[piece.Bars.Length];
        for (var i = 0; i < inside.Length; i++)
            inside[i] = this[i].Ending is > 0 and var begins ? begins : i > 0 && !this[i - 1].EndingStops ? inside[i - 1] : 0;
    }

    /// <summary>What stands at a bar.</summary>
    public BarSigns this[int bar] => at.GetValueOrDefault(bar) ?? Nothing;

    /// <summary>The number of the ending that a bar belongs to; 0 for none.</summary>
    public int Inside(int bar) => inside[bar];

    private void Say(int? bar, string words) => Put(bar, s => s.End.Add(words));

    // The last ending goes on instead of back; where there are no endings, the end itself goes back.
    private void Close(int? bar, int ending, int times) => Put(bar, s =>
    {
        var back = ending == 0 || times == 0 || ending < times;
        s.EndingStops = ending > 0;
        s.EndingCloses = ending > 0 && back;
        s.RepeatEnd = back;
        s.Times = ending == 0 && times > 2 ? times : 0;
    });

    private void Put(int? bar, Action<BarSigns> set)
    {
        if (bar is not { } b)
            return;
        if (!at.TryGetValue(b, out var signs))
            at[b] = signs = new();
        set(signs);
    }
}

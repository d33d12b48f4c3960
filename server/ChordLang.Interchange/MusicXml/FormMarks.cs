// Form words as MusicXML has them: bar lines with repeats and endings, and directions that leap.
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Interchange.MusicXml;

/// <summary>What the form says at each bar.</summary>
internal sealed class FormMarks
{
    private readonly Dictionary<int, List<XElement>> left = [], right = [], before = [], after = [];

    public FormMarks(Piece piece)
    {
        var ending = 0;
        for (var i = 0; i < piece.Tree.Lines.Length; i++)
        {
            if (piece.Tree.Lines[i] is not FormLine form)
                continue;
            var next = piece.Bars.FirstOrDefault(b => b.Line > i)?.Index;
            var last = piece.Bars.LastOrDefault(b => b.Line < i)?.Index;
            switch (form.Kind)
            {
                case FormKind.Repeat:
                    Put(left, next, new XElement("repeat", new XAttribute("direction", "forward")));
                    break;
                case FormKind.Ending:
                    if (ending > 0)
                        Close(last, ending, 0);
                    ending = form.Number;
                    Put(left, next, new XElement("ending", new XAttribute("number", ending), new XAttribute("type", "start")));
                    break;
                case FormKind.End:
                    Close(last, ending, Times(piece, i));
                    ending = 0;
                    break;
                case FormKind.Segno: Put(before, next, Direction(new("segno"), new("segno", "segno"))); break;
                case FormKind.Coda: Put(before, next, Direction(new("coda"), new("coda", "coda"))); break;
                case FormKind.ToCoda: Put(after, last, Words("To Coda", new("tocoda", "coda"))); break;
                case FormKind.Fine: Put(after, last, Words("Fine", new("fine", "yes"))); break;
                case FormKind.DaCapo: Put(after, last, Words("D.C.", new("dacapo", "yes"))); break;
                case FormKind.DaCapoAlFine: Put(after, last, Words("D.C. al Fine", new("dacapo", "yes"))); break;
                case FormKind.DaCapoAlCoda: Put(after, last, Words("D.C. al Coda", new("dacapo", "yes"))); break;
                case FormKind.DalSegno: Put(after, last, Words("D.S.", new("dalsegno", "segno"))); break;
                case FormKind.DalSegnoAlFine: Put(after, last, Words("D.S. al Fine", new("dalsegno", "segno"))); break;
                case FormKind.DalSegnoAlCoda: Put(after, last, Words("D.S. al Coda", new("dalsegno", "segno"))); break;
            }
        }
    }

    /// <summary>The bar line before a bar, or null.</summary>
    public XElement? Left(int bar) => Line("left", left.GetValueOrDefault(bar));

    /// <summary>The bar line behind a bar, or null; the last bar has the final one.</summary>
    public XElement? Right(int bar, bool final)
    {
        var line = Line("right", right.GetValueOrDefault(bar));
        return line is null && final ? new("barline", new XAttribute("location", "right"), new XElement("bar-style", "light-heavy")) : line;
    }

    /// <summary>Directions at the start of a bar.</summary>
    public IEnumerable<XElement> Before(int bar) => before.GetValueOrDefault(bar) ?? [];

    /// <summary>Directions at the end of a bar.</summary>
    public IEnumerable<XElement> After(int bar) => after.GetValueOrDefault(bar) ?? [];

    /// <summary>A direction in words.</summary>
    public static XElement Words(string words, XAttribute? sound = null, string placement = "above") =>
        new("direction", new XAttribute("placement", placement), new XElement("direction-type", new XElement("words", words)),
            sound is null ? null : new XElement("sound", sound));

    private void Close(int? bar, int ending, int times)
    {
        if (ending > 0)
            Put(right, bar, new XElement("ending", new XAttribute("number", ending), new XAttribute("type", times == 0 || ending < times ? "stop" : "discontinue")));
        // The last ending goes on instead of back.
        if (ending == 0 || times == 0)
            Put(right, bar, new XElement("repeat", new XAttribute("direction", "backward"), times > 2 ? new XAttribute("times", times) : null));
    }

    // The number of the repeat that this end closes; 0 where there is none.
    private static int Times(Piece piece, int line)
    {
        var depth = 0;
        for (var i = line - 1; i >= 0; i--)
            if (piece.Tree.Lines[i] is FormLine { Kind: FormKind.End })
                depth++;
            else if (piece.Tree.Lines[i] is FormLine { Kind: FormKind.Repeat } repeat && depth-- == 0)
                return repeat.Number;
        return 0;
    }

    private static XElement Direction(XElement type, XAttribute sound) =>
        new("direction", new XAttribute("placement", "above"), new XElement("direction-type", type), new XElement("sound", sound));

    private static XElement? Line(string location, List<XElement>? content) => content is null ? null
        : new("barline", new XAttribute("location", location), content.OrderBy(e => e.Name.LocalName == "ending" ? 0 : 1));

    private static void Put(Dictionary<int, List<XElement>> at, int? bar, XElement element)
    {
        if (bar is not { } b)
            return;
        if (!at.TryGetValue(b, out var list))
            at[b] = list = [];
        if (!list.Any(e => e.Name == element.Name))
            list.Add(element);
    }
}

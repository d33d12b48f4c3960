// Reads a row event by event, and goes on behind a slip at the next count with a sound.
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads rows. One slip gives one finding: until reading begins anew, nothing more is said.</summary>
internal static class RowParser
{
    /// <summary>Reads a row.</summary>
    /// <param name="line">The line.</param>
    /// <param name="label">Where the voice label stands with its colon, or null.</param>
    public static LineSyntax Parse(string line, Span? label)
    {
        var words = Words.OfRow(line, label?.End ?? 0);
        var paint = new Paint(words);
        var events = ImmutableArray.CreateBuilder<EventSyntax>();
        List<SyntaxFinding> findings = [];
        if (words.OpenQuote >= 0)
            findings.Add(Say.OpenQuote(words));
        var (i, recovering, marksBelong) = (0, false, false);
        while (i < words.Count)
        {
            if (recovering ? words.IsEventStart(i) : words.KindAt(i) == WordKind.Count)
            {
                var read = EventGrammar.Event(words.At(i));
                i = ((At)read.Remainder).Index;
                events.Add(read.Value);
                (recovering, marksBelong) = (false, read.Value.Sounds.Length > 0);
                if (read.Value.Sounds.IsEmpty && (i == words.Count || words.KindAt(i) is WordKind.Count or WordKind.Bar))
                    findings.Add(Say.MissingSound(words, i - 1, read.Value));
                continue;
            }
            if (words.KindAt(i) == WordKind.Bar)
            {
                findings.Add(Say.BarInRow(words, i));
                break;
            }
            // A quote that was left open is the slip, wherever it stands.
            if (!recovering && i == words.OpenQuote)
                recovering = true;
            else if (!recovering)
            {
                findings.Add(SlipInRow.Find(words, i, events.Count > 0 ? events[^1] : null));
                recovering = true;
                marksBelong &= !words.IsSound(i) || words.KindAt(i) == WordKind.Shape;
            }
            else if (EventGrammar.Mark(words.At(i)) is { WasSuccessful: true } mark)
            {
                if (marksBelong)
                    events[^1] = With(events[^1], mark.Value);
                else
                    paint.Mark(mark.Value);
                i = ((At)mark.Remainder).Index;
                continue;
            }
            i++;
        }
        foreach (var e in events)
            paint.Event(e);
        if (words.Count == 0)
            findings.Add(Say.EmptyRow(line, label!.Value));
        var row = new RowLine(line, label, label is { } l ? line[l.Start..(l.End - 1)] : null, events.ToImmutable());
        if (Reading.OctaveReading.Unread(row) is { } pitch)
            findings.Add(Say.Octave(line, pitch));
        var tokens = paint.Tokens(label is { } at ? new Token(TokenKind.Label, at) : null);
        if (Typing.Find(line, words.Plain, tokens) is { } typed)
            findings.Add(typed);
        return row with { Tokens = tokens, Findings = Say.Ordered(findings) };
    }

    private static EventSyntax With(EventSyntax e, MarkSyntax mark)
    {
        var last = e.Sounds[^1];
        last = last with { Marks = last.Marks.Add(mark), Span = last.Span.Join(mark.Span) };
        return e with { Sounds = e.Sounds.SetItem(e.Sounds.Length - 1, last), Span = e.Span.Join(mark.Span) };
    }
}

// Looks at the word where reading a row stopped, and says what the player probably meant.
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Turns the place where a row could not be read on into a finding.</summary>
internal static class SlipInRow
{
    /// <summary>The finding for a word that fits nowhere.</summary>
    /// <param name="words">The row's words.</param>
    /// <param name="i">The word.</param>
    /// <param name="before">The event in front of it, or null at the start of the row.</param>
    public static SyntaxFinding Find(Words words, int i, EventSyntax? before)
    {
        var (span, text) = (words[i].Span, words.Text(i));
        var afterSound = before is { Sounds.Length: > 0 };
        if (words.KindAt(i) == WordKind.Equal)
            return Equal(words, i, afterSound);
        if (words.KindAt(i) == WordKind.Other && text[^1] is ',' or ';' && Plain(text[..^1]))
            return Stops(words, i);
        if (words.KindAt(i) == WordKind.Other && Scan.LooksLikeChord(words.Written(i)))
            return Chord(words, i, before);
        if (char.IsAsciiDigit(text[0]) && words.KindAt(i) == WordKind.Other)
            return Digits(words, i);
        if (afterSound && text == "+" && i + 1 < words.Count && words.KindAt(i - 1) == WordKind.Notes && words.KindAt(i + 1) == WordKind.Notes)
            return Apart(words, i);
        if (words.KindAt(i) == WordKind.Reserved && !words.IsSound(i))
            return Reserved(words, i, afterSound);
        if (words.KindAt(i) is WordKind.Shape or WordKind.Other && (afterSound || before is null) && char.IsLetter(text[0]))
            return Word(words, i, afterSound, before is { To: not null });
        if (words.IsSound(i))
            return MissingCount(words, i, before);
        if (words.KindAt(i) == WordKind.Quote)
            return Say.Finding(SyntaxCodes.MissingCount, span, "A remark stands behind the sound it is about. Write the count and the sound in front of it.");
        if (text.All(c => c == '.'))
            return Say.Unreadable(words.Line, span, "Dots stand for nothing here. Write rest, again or tied on a count of its own.");
        if (text is "&" or "and")
            return Say.Finding(SyntaxCodes.BadCount, span, "The half of a count is written together with its number: 2&.");
        return Say.Unreadable(words.Line, span, afterSound
            ? "Behind a sound stand its marks, then the next count."
            : "A sound stands behind its count: a pitch (D4), a fret on a string (8@2), frets (x-3-5-4-5-x), a shape, rest, tied or again.");
    }

    // Notes that sound together, with blanks around the plus.
    private static SyntaxFinding Apart(Words words, int plus)
    {
        var last = plus + 1;
        while (last + 2 < words.Count && words.Text(last + 1) == "+" && words.KindAt(last + 2) == WordKind.Notes)
            last += 2;
        var (whole, joined) = (words.Between(plus - 1, last), string.Concat(Enumerable.Range(plus - 1, last - plus + 2).Select(words.Written)));
        return Say.Unreadable(words.Line, whole, $"Notes that sound together are joined without blanks: {joined}.", Say.Write(joined, false, whole));
    }

    // A comma or semicolon behind words that would be read without it, here and further on in the row.
    private static SyntaxFinding Stops(Words words, int first)
    {
        var edits = Enumerable.Range(first, words.Count - first).Where(i => words.Text(i) is [.., ',' or ';'] text && Plain(text[..^1]))
            .Select(i => new TextEdit(new(words[i].Span.End - 1, 1), ""));
        return Say.Finding(SyntaxCodes.Unreadable, new(words[first].Span.End - 1, 1),
            $"Blanks part the words of a row, so no {(words.Text(first)[^1] == ',' ? "comma" : "semicolon")} stands here.", new SyntaxFix("Take it out", false, [.. edits]));
    }

    private static bool Plain(string text) => text.Length > 0 && Words.OfRow(text) is { Count: 1 } words && words.KindAt(0) is not (WordKind.Other or WordKind.Quote);

    private static SyntaxFinding Equal(Words words, int i, bool afterSound)
    {
        var span = words[i].Span;
        if (afterSound && i + 1 < words.Count && words.KindAt(i + 1) == WordKind.Other && Scan.LooksLikeChord(words.Written(i + 1)))
            return Say.Finding(SyntaxCodes.ChordInRow, words.Between(i, i + 1),
                $"= says that two descriptions are the same sound, and {words.Written(i + 1)} is the name of a chord. A name stands behind is.",
                Say.Fix($"Write is {words.Written(i + 1)}", true, span, "is"));
        return Say.Finding(SyntaxCodes.MissingSound, span, afterSound
            ? "= stands directly between two descriptions of one sound, such as G4 = 8@2, once and before the marks."
            : "In front of = stands a sound, as in G4 = 8@2.");
    }

    private static SyntaxFinding Chord(Words words, int i, EventSyntax? before)
    {
        var (span, symbol) = (words[i].Span, words.Written(i));
        if (before is { Sounds.Length: > 0 })
            return Say.Finding(SyntaxCodes.ChordInRow, span, $"{symbol} is a chord symbol. Behind a sound a name stands after is; for the bar it stands on the chart line.",
                Say.Fix($"Write is {symbol}", before.To is null, new(span.Start, 0), "is "));
        var message = $"{symbol} is a chord symbol, and a row says what is played. Write it on the chart line above, and here the pitches or frets.";
        return OnlyChords(words) ? Say.Finding(SyntaxCodes.ChordInRow, span, message, Say.Fix("Make this a chart line", false, new(0, words[0].Span.Start), "| "))
            : Say.Finding(SyntaxCodes.ChordInRow, span, message);
    }

    // A row of counts and symbols is a chart line whose bar line was forgotten; D7 is a pitch too, so it may stand among them.
    private static bool OnlyChords(Words words)
    {
        for (var i = 0; i < words.Count; i++)
            if (words.KindAt(i) is not (WordKind.Count or WordKind.Bar) && !Scan.LooksLikeChord(words.Written(i)) && words.Text(i) is not ("%" or "/" or "N.C."))
                return false;
        return words.Line.AsSpan(0, words[0].Span.Start).IsWhiteSpace();
    }

    private static SyntaxFinding Digits(Words words, int i)
    {
        var (span, text) = (words[i].Span, words.Text(i));
        if (text.Contains('@'))
            return Say.Unreadable(words.Line, span, "A fret on a string is written 8@2: fret 8 on string 2. Frets have at most two digits, strings one, and the highest string is 1.");
        if (text.Contains('-'))
            return Say.Unreadable(words.Line, span, "Frets are written one slot a string, lowest string first, each a number of at most two digits or x: x-3-5-4-5-x.");
        var slash = text.IndexOf('/');
        if (slash > 0 && !text.Contains('+'))
            return Say.Unreadable(words.Line, span, "A fret on a string is written with @: 8@2 is fret 8 on string 2. A fraction of a count is written 3+2/5.");
        var digits = Scan.Digits(text);
        var rest = text[digits..];
        if (digits > 2)
            return Say.Finding(SyntaxCodes.BadCount, span, $"{Say.Shown(text)} is no count: a count has at most two digits. Frets are written with dashes: 3-5-4.");
        if (Scan.Number(text.AsSpan(0, digits)) == 0)
            return Say.Finding(SyntaxCodes.BadCount, span, "Counts begin with 1: the first count of a bar is 1, also in a bar that a pickup shortens.");
        var better = rest switch
        {
            "and" or "+" or "n" or "-and" or ".5" or "+.5" or "&&" => "&", ".25" => "e", ".75" or "ah" or "uh" or "d" => "a", "t" or "tri" or "tr" => "trip", "l" or "le" => "let",
            "." or ")" or ":" => "",
            _ => null,
        };
        var message = $"{Say.Shown(text)} is no count. A count is a number with nothing, &, e, a, trip or let behind it (2&), or with a fraction smaller than 1: 3+2/5.";
        return better is null ? Say.Finding(SyntaxCodes.BadCount, span, message)
            : Say.Finding(SyntaxCodes.BadCount, span, message, Say.Write(text[..digits] + better, false, span));
    }

    private static SyntaxFinding Reserved(Words words, int i, bool afterSound)
    {
        var (span, text) = (words[i].Span, words.Text(i));
        var mark = text.Split('@')[0];
        if (mark == "is" && i + 1 < words.Count && words.KindAt(i + 1) is WordKind.Slots or WordKind.Notes or WordKind.Count)
        {
            var message = $"{words.Written(i + 1)} is a sound, and is takes the name of a chord. = says that two descriptions are the same sound.";
            return afterSound && words.IsSound(i - 1) && words.IsSound(i + 1)
                ? Say.Finding(SyntaxCodes.SoundAsName, words.Between(i, i + 1), message, Say.Fix($"Write = {words.Text(i + 1)}", false, span, "="))
                : Say.Finding(SyntaxCodes.SoundAsName, words.Between(i, i + 1), message);
        }
        if (text.Length != mark.Length && !(text.Length == mark.Length + 2 && text[^1] is >= '1' and <= '9' && Vocabulary.Marks.ContainsKey(mark)))
            return Say.Finding(SyntaxCodes.MarkOperand, span, "A mark for one note of a chord names its string, 1 being the highest: ring@1.");
        var wanted = mark switch
        {
            "until" => "until wants the count where the sound ends: ring until 3&.",
            "from" => "from wants where the slide begins: slide from 7@1, slide from D4, slide from below or slide from above.",
            "grace" => "grace wants the note that is played quickly before the sound: grace D#4.",
            "bend" => "bend wants how far: bend half, bend full or bend to F#4.",
            "finger" => "finger wants one finger: 1 to 4, or T for the thumb.",
            "fingers" => "fingers wants one entry a string, lowest first: fingers x-1-3-2-4-x; T is the thumb, 0 an open string, x no finger.",
            "pluck" => "pluck wants the fingers of the plucking hand: pluck p-i-m.",
            "is" => "is wants a chord symbol: is Cmaj7.",
            "at" => "at stands behind a shape and wants a fret: low-drop at 8.",
            "to" => "to stands between the two counts of a run: 1 to 4& D4 E F G A G F E; or behind bend.",
            _ => null,
        };
        if (wanted is not null && afterSound)
            return Say.Finding(SyntaxCodes.MarkOperand, span, wanted);
        return wanted is not null && mark is "to" or "at" ? Say.Finding(SyntaxCodes.MarkOperand, span, wanted)
            : afterSound ? Say.Finding(SyntaxCodes.UnknownMark, span, $"{Say.Shown(text)} stands alone here. It belongs behind a mark such as ring, slide or bend.")
            : Say.Finding(SyntaxCodes.MissingSound, span, $"{Say.Shown(text)} is a mark, and a mark stands behind a sound. Write the sound between the count and it.");
    }

    // In a run each word that is left out of the sounds divides the time of the others anew.
    private static SyntaxFinding Word(Words words, int i, bool afterSound, bool inRun)
    {
        var (span, text) = (words[i].Span, words.Text(i).Split('@')[0]);
        var at = new Span(span.Start, text.Length);
        if (afterSound && text == "let" && i + 1 < words.Count && words.Text(i + 1) == "ring")
            return Say.Finding(SyntaxCodes.UnknownMark, words.Between(i, i + 1), "\"let ring\" is written with one word here: ring.", Say.Write("ring", false, words.Between(i, i + 1)));
        if (afterSound && i > 1 && words.Text(i - 2) == "is" && words.Written(i - 1) + words.Written(i) is var symbol && Scan.LooksLikeChord(words.Written(i - 1)) && Scan.LooksLikeChord(symbol))
            return Say.Finding(SyntaxCodes.UnknownMark, words.Between(i - 1, i), $"A chord symbol holds no blank: {symbol}.", Say.Write(symbol, true, words.Between(i - 1, i)));
        if (afterSound && text is [.., ':'] && text.Length > 1)
            return Say.Finding(SyntaxCodes.UnknownMark, at, $"{Say.Shown(text)} names a voice, and each voice has a line of its own.",
                Say.Fix("Begin a line here", false, new(span.Start, 0), "\n" + words.Line[..(words.Line.Length - words.Line.TrimStart().Length)]));
        var near = (afterSound ? Meant(text.ToLowerInvariant()) : null) ?? Vocabulary.Nearest(text, afterSound ? Vocabulary.Marks.Keys : Vocabulary.Sounds);
        if (near is not null)
            return Say.Finding(SyntaxCodes.UnknownMark, at, $"{Say.Shown(text)} is no mark of the notation. Did you mean {near}?", Say.Write(near, false, at));
        if (!afterSound)
            return MissingCount(words, i, null);
        var last = i;
        while (last + 1 < words.Count && words.KindAt(last + 1) is WordKind.Shape or WordKind.Other && IsWord(words, last + 1))
            last++;
        var remark = words.Between(i, last);
        return Say.Finding(SyntaxCodes.UnknownMark, i == last ? span : remark,
            $"{Say.Shown(i == last ? text : words.Line.Substring(remark.Start, remark.Length))} is no mark of the notation. Marks are words such as ring, slide or fermata; free words stand in quotes, and a shape behind a count of its own.",
            Say.Fix("Make it a remark", !inRun && ReadsOn(words, last + 1), remark, $"\"{words.Line.Substring(remark.Start, remark.Length).Replace("\"", "", StringComparison.Ordinal)}\""));
    }

    // A word that neither is nor resembles anything of the notation.
    private static bool IsWord(Words words, int i) => words.Text(i) is var text && char.IsLetter(text[0]) && !Scan.LooksLikeChord(words.Written(i)) && (words.KindAt(i) == WordKind.Shape || !Plain(text.TrimEnd(',', ';')))
        && Meant(text.ToLowerInvariant()) is null && Vocabulary.Nearest(text, Vocabulary.Marks.Keys) is null;

    // Reading went on at the next count with a sound; behind a remark it goes on at once, and a count or a sound by itself would be read otherwise.
    private static bool ReadsOn(Words words, int i)
    {
        while (i < words.Count && EventGrammar.Mark(words.At(i)) is { WasSuccessful: true } mark)
            i = ((At)mark.Remainder).Index;
        return i == words.Count || words.IsEventStart(i) || words.KindAt(i) != WordKind.Count && (words.KindAt(i) == WordKind.Shape || !words.IsSound(i));
    }

    private static SyntaxFinding MissingCount(Words words, int i, EventSyntax? before)
    {
        var (span, text) = (words[i].Span, words.Written(i));
        // G7 is a pitch too, but so high that no guitar has it: a line of such words lacks its bar line.
        if (before is null && words.KindAt(i) == WordKind.Notes && text[^1] is >= '6' and <= '9' && OnlyChords(words))
            return Say.Finding(SyntaxCodes.ChordInRow, span, $"{text} is a chord symbol, and chord symbols stand on a chart line, which begins with |.",
                Say.Fix("Make this a chart line", false, new(0, words[0].Span.Start), "| "));
        if (before is null)
            return Say.Finding(SyntaxCodes.MissingCount, span, $"{text} has no count. Write the count on which it starts in front of it: 1 {text}.",
                Say.Fix("Put it on count 1", false, new(span.Start, 0), "1 "));
        return Say.Finding(SyntaxCodes.MissingCount, span,
            $"{text} has no count. Each sound stands behind the count on which it starts; a run of even notes names its first and last count: 1 to 4& D4 E F G A G F E.");
    }

    // Other words of the trade for what a mark says.
    private static string? Meant(string word) => word switch
    {
        "hold" or "held" or "sustain" or "laissez" or "ringing" or "rings" => "ring",
        "arp" or "arpeggio" or "arpeggiate" or "arpeggiated" or "rolled" or "strum" => "roll",
        "hammer-on" or "hammeron" or "ho" => "hammer",
        "pull-off" or "pulloff" or "po" => "pull",
        "gliss" or "glissando" or "sl" => "slide",
        "staccato" or "stacc" or "stac" => "short",
        "legato" => "slur",
        "pause" => "fermata",
        "marcato" or "stress" => "accent",
        "vib" => "vibrato",
        "pm" or "p.m." or "palm" or "palmmute" => "palm-mute",
        "mute" or "muted" or "percussive" => "dead",
        "harm" or "harmonics" or "flageolet" => "harmonic",
        "appoggiatura" or "acciaccatura" => "grace",
        _ => null,
    };
}

// Reads settings: the word, and a value in the form that the word wants.
using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using Sprache;
using static ChordLang.Grammar.Parsing.EventGrammar;

namespace ChordLang.Grammar.Parsing;

/// <summary>Reads setting lines.</summary>
internal static class SettingParser
{
    private static readonly Parser<int> Number = Take(t => t.Length is > 0 and <= 3 && Scan.Digits(t) == t.Length ? Scan.Number(t) : (int?)null);

    private static readonly Parser<double> Decimal =
        Take(t => t.Length <= 8 && t.All(c => char.IsAsciiDigit(c) || c == '.') && double.TryParse(t, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var d) && d > 0 ? d : (double?)null);

    private static readonly Parser<PitchSyntax> Pitch = i =>
        i is At { AtEnd: false } at && Scan.Pitch(at.Words.Text(at.Index), at.Position) is { } pitch ? Result.Success(pitch, at.Next) : Failure<PitchSyntax>(i);

    private static readonly Parser<SettingValue> Key =
        (from tonic in Pitch.Where(p => p.Octave is null)
         from mode in OneOf(Vocabulary.Modes)
         select new KeyValue(tonic, mode, 0))
        .Or(from number in Number.Where(n => n <= 7)
            from sign in OneOf(["sharps", "sharp", "flats", "flat"])
            select new KeyValue(null, "", sign[0] == 's' ? number : -number));

    private static readonly Parser<SettingValue> Tempo =
        (from rubato in Fixed("rubato")
         from around in Fixed("around").Then(_ => Decimal).Optional()
         select new TempoValue(around.IsEmpty ? null : around.Get(), true))
        .Or(Decimal.Select(d => new TempoValue(d, false)));

    private static readonly Parser<SettingValue> Tuning = Pitch.Where(p => p.Octave is not null).Many().Select(p => p.ToImmutableArray())
        .Where(p => p.Length is >= 4 and <= 9).Select(p => new TuningValue(p));

    private static readonly Parser<SettingValue> Length =
        from number in Decimal
        from unit in OneOf(["mm", "cm", "in", "inch", "inches"])
        select new LengthValue(Math.Round(number * unit switch { "mm" => 1, "cm" => 10, _ => 25.4 }, 2));

    private static readonly Parser<SettingValue> Reach =
        from first in Number.Where(n => n > 0)
        from to in Fixed("to")
        from last in Number.Where(n => n > first && n <= 36)
        select new ReachValue(first, last);

    private static readonly Parser<SettingValue> Meter = Take(t => MeterOf(t)).Select(m => new MeterValue(m.Counts, m.Unit));

    private static readonly Parser<SettingValue> Naming = OneOf(["jazz", "strict"]).Select(w => new NamingValue(w == "strict"));

    // The value's form, and how a message tells it. Free text has none.
    private static readonly FrozenDictionary<SettingKind, (Parser<SettingValue> Form, string Wanted)> Forms =
        new Dictionary<SettingKind, (Parser<SettingValue>, string)>
        {
            [SettingKind.Key] = (Key, "key wants a tonic and a mode, such as key G major, key Bb minor or key D dorian; or only the signature: key 2 flats"),
            [SettingKind.Meter] = (Meter, "meter wants how many counts a bar has and which note is one: meter 4/4, meter 6/8. The lower number is 2, 4, 8 or 16"),
            [SettingKind.Tempo] = (Tempo, "tempo wants beats a minute, or free time: tempo 66, tempo rubato, tempo rubato around 60"),
            [SettingKind.Strings] = (Tuning, "strings wants the open strings with their octaves, lowest string first, 4 to 9 of them: strings E2 A2 D3 G3 B3 E4"),
            [SettingKind.Capo] = (Within(0, 24), "capo wants the fret that it is on, 0 to 24: capo 2"),
            [SettingKind.Frets] = (Within(1, 36), "frets wants how many frets the neck has, 1 to 36: frets 21"),
            [SettingKind.ScaleLength] = (Length, "scale-length wants the length of the open string and its unit: scale-length 628 mm, scale-length 25.5 in"),
            [SettingKind.Reach] = (Reach, "reach wants two frets: the one the first finger is on, and the farthest that the hand reaches from there: reach 5 to 9"),
            [SettingKind.Naming] = (Naming, "naming is jazz or strict"),
            [SettingKind.Position] = (Within(1, 24), "position wants the fret of the first finger, 1 to 24: position 5"),
        }.ToFrozenDictionary();

    /// <summary>Reads a setting line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="kind">The setting.</param>
    /// <param name="keyword">Where its word stands, a colon behind it included.</param>
    public static LineSyntax Parse(string line, SettingKind kind, Span keyword)
    {
        var value = LineParser.Whole(line[keyword.End..]).Shift(keyword.End);
        if (value.Length == 0)
            value = new(keyword.End, 0);
        if (!Forms.TryGetValue(kind, out var form))
            return FreeText.Typed(Free(line, kind, keyword, value), keyword);
        var words = Words.OfRow(line, keyword.End);
        var read = form.Form(words.At(0));
        var end = read.WasSuccessful ? ((At)read.Remainder).Index : 0;
        var paint = new Paint(words);
        if (end > 0)
            paint.Set(words.Between(0, end - 1), TokenKind.Operand);
        var result = new SettingLine(line, keyword, kind, read.WasSuccessful ? read.Value : null, value)
        {
            Tokens = paint.Tokens(new Token(TokenKind.Keyword, keyword)),
            Findings = read.WasSuccessful && end == words.Count ? [] : [Slip(words, kind, keyword, value, read.WasSuccessful ? end : 0, form.Wanted)],
        };
        return FreeText.Typed(result, keyword, Small(words, kind));
    }

    private static SettingLine Free(string line, SettingKind kind, Span keyword, Span value)
    {
        var text = line.Substring(value.Start, value.Length);
        SettingValue? read = value.Length == 0 ? null : kind == SettingKind.Tags
            ? new TagsValue([.. text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)]) : new TextValue(text);
        var wanted = kind switch
        {
            SettingKind.Title => "title wants the name of the piece: title Ferry at Dusk",
            SettingKind.By => "by wants a name: by A. Student",
            SettingKind.Feel => "feel wants a word: feel swing",
            _ => "tags wants words with commas between them: tags ballad, rubato",
        };
        return new(line, keyword, kind, read, value)
        {
            Tokens = value.Length == 0 ? [new(TokenKind.Keyword, keyword)] : [new(TokenKind.Keyword, keyword), new(TokenKind.Words, value)],
            Findings = read is null ? [Say.BadValue(keyword, wanted + ".")] : [],
        };
    }

    private static SyntaxFinding Slip(Words words, SettingKind kind, Span keyword, Span value, int read, string wanted)
    {
        if (words.Count == 0)
            return Say.BadValue(keyword, wanted + ".");
        if (words.Count > 1 && words.Text(0) is "=" or ":")
            return Say.BadValue(words[0].Span, $"Between a setting and its value stands a blank: {wanted}.", Say.Fix("Take it out", true, Span.Between(words[0].Span.Start, words[1].Span.Start), ""));
        if (read > 0)
        {
            var rest = words.Between(read, words.Count - 1);
            return Say.BadValue(rest, $"{Say.Shown(words.Line.Substring(rest.Start, rest.Length))} is too much here: {wanted}.", Say.Fix("Take it out", false, Span.Between(words[read - 1].Span.End, rest.End), ""));
        }
        var shown = Say.Shown(words.Line.Substring(value.Start, value.Length));
        return Meant(words, kind) is { } meant ? Say.BadValue(value, $"{shown} cannot be read: {wanted}.", Say.Write(meant, false, value))
            : Say.BadValue(value, $"{shown} cannot be read: {wanted}.");
    }

    // The value that a common short form stands for.
    private static string? Meant(Words words, SettingKind kind)
    {
        var first = words.Text(0);
        if (kind == SettingKind.Meter && words.Count == 1 && first.Split('-', ':', 'x', '.') is [{ Length: 1 or 2 } counts, "2" or "4" or "8" or "16"] parts && counts.All(char.IsAsciiDigit))
            return string.Join('/', parts);
        switch (kind)
        {
            case SettingKind.Key when Scan.Symbol(char.ToUpperInvariant(first[0]) + first[1..], 0) is { Bass: null } tonic:
                var mode = words.Count > 1 ? Vocabulary.Nearest(words.Text(1), Vocabulary.Modes) : tonic.Suffix is "" or "maj" ? "major" : tonic.Suffix is "m" or "min" or "-" ? "minor" : null;
                // Symbols know the double signs, pitches are written with two plain ones.
                return mode is null ? null : $"{tonic.Root.Replace("\U0001D12A", "##", StringComparison.Ordinal).Replace("\U0001D12B", "bb", StringComparison.Ordinal)} {mode}";
            case SettingKind.Meter when first is "C" or "c" or "common":
                return "4/4";
            case SettingKind.ScaleLength when words.Count == 1 && double.TryParse(first, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var length):
                return length > 100 ? $"{first} mm" : $"{first} in";
            case SettingKind.Reach when words.Count == 1 && first.Split('-') is [var from, var to] && from.Length is 1 or 2 && to.Length is 1 or 2 && Scan.Digits(from) == from.Length && Scan.Digits(to) == to.Length:
                return $"{from} to {to}";
            case SettingKind.Naming:
                return Vocabulary.Nearest(first, ["jazz", "strict"]);
            default:
                return null;
        }
    }

    private static (int Counts, int Unit)? MeterOf(string text)
    {
        var slash = text.IndexOf('/');
        if (slash is < 1 or > 2 || Scan.Digits(text) != slash || text[(slash + 1)..] is not ("2" or "4" or "8" or "16"))
            return null;
        var counts = Scan.Number(text.AsSpan(0, slash));
        return counts is > 0 and <= 32 ? (counts, Scan.Number(text.AsSpan(slash + 1))) : null;
    }

    private static Parser<SettingValue> Within(int least, int most) => Number.Where(n => n >= least && n <= most).Select(n => new NumberValue(n));

    // One word of a closed list; capitals are read as small letters.
    private static Parser<string> OneOf(ImmutableArray<string> words) => i =>
        i is At { AtEnd: false } at && at.Words.Text(at.Index).ToLowerInvariant() is var text && words.Contains(text) ? Result.Success(text, at.Next) : Failure<string>(i);

    // The plain line, words of closed lists in small letters, so that capitals get their safe fix.
    private static string Small(Words words, SettingKind kind)
    {
        if (kind is not (SettingKind.Key or SettingKind.Naming or SettingKind.ScaleLength))
            return words.Plain;
        var text = words.Plain.ToCharArray();
        for (var i = kind == SettingKind.Key ? 1 : 0; i < words.Count; i++)
            for (var c = words[i].Span.Start; c < words[i].Span.End; c++)
                text[c] = char.ToLowerInvariant(text[c]);
        return new(text);
    }
}

// The primitives of a line, read by hand a whole token at a time: this keeps the grammar above them short and quick.
using System.Buffers;
using System.Collections.Immutable;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Grammar.Parsing;

/// <summary>Scanners for one token. Each takes the token's characters and its offset in the line, and answers only for a full match.</summary>
internal static class Scan
{
    private static readonly SearchValues<char> CompactSigns = SearchValues.Create("x0123456789");
    private static readonly SearchValues<char> CodeSigns = SearchValues.Create("abcdefghijklmnopqrstuvwxyz0123456789-");

    /// <summary><c>2</c>, <c>2&amp;</c>, <c>2e</c>, <c>2a</c>, <c>2trip</c>, <c>2let</c>, <c>2+3/5</c>: a count has at most two digits, a fraction two above and two below.</summary>
    public static CountSyntax? Count(ReadOnlySpan<char> text, int at)
    {
        var digits = Digits(text);
        if (digits is 0 or > 2 || Number(text[..digits]) is var whole && whole == 0)
            return null;
        Rational? beyond = text[digits..] switch
        {
            "" => Rational.Zero, "&" => Rational.Of(1, 2), "e" => Rational.Of(1, 4), "a" => Rational.Of(3, 4),
            "trip" => Rational.Of(1, 3), "let" => Rational.Of(2, 3), ['+', .. var fraction] => Fraction(fraction), _ => null,
        };
        return beyond is { } b ? new(new(at, text.Length), whole, b) : null;
    }

    private static Rational? Fraction(ReadOnlySpan<char> text)
    {
        var above = Digits(text);
        if (above is 0 or > 2 || above >= text.Length || text[above] != '/')
            return null;
        var below = text[(above + 1)..];
        if (below.Length is 0 or > 2 || Digits(below) != below.Length)
            return null;
        var (a, b) = (Number(text[..above]), Number(below));
        return a > 0 && a < b ? Rational.Of(a, b) : null;
    }

    /// <summary><c>x-3-5-4-5-x</c>: two slots or more, parted by dashes.</summary>
    public static SlotsSound? Slots(ReadOnlySpan<char> text, int at)
    {
        if (!text.Contains('-'))
            return null;
        var slots = ImmutableArray.CreateBuilder<SlotSyntax>(6);
        for (var i = 0; ;)
        {
            var digits = Digits(text[i..]);
            if (digits is 1 or 2)
                slots.Add(new(new(at + i, digits), Number(text.Slice(i, digits))));
            else if (digits == 0 && i < text.Length && text[i] == 'x')
                slots.Add(new(new(at + i, digits = 1), null));
            else
                return null;
            i += digits;
            if (i == text.Length)
                return new(new(at, text.Length), slots.ToImmutable(), false);
            if (text[i++] != '-')
                return null;
        }
    }

    /// <summary><c>x35453</c>: one sign a string, four or more (three where an <c>x</c> is among them).</summary>
    public static SlotsSound? Compact(ReadOnlySpan<char> text, int at)
    {
        if (text.Length < 3 || text.ContainsAnyExcept(CompactSigns) || text.Length == 3 && !text.Contains('x'))
            return null;
        var slots = ImmutableArray.CreateBuilder<SlotSyntax>(text.Length);
        for (var i = 0; i < text.Length; i++)
            slots.Add(new(new(at + i, 1), text[i] == 'x' ? null : text[i] - '0'));
        return new(new(at, text.Length), slots.ToImmutable(), true);
    }

    /// <summary>Notes joined by <c>+</c>: <c>Eb4</c>, <c>G4@2</c>, <c>8@2</c>.</summary>
    public static NotesSound? Notes(ReadOnlySpan<char> text, int at)
    {
        if (text.IsEmpty || text[0] is not (>= 'A' and <= 'G' or >= '0' and <= '9'))
            return null;
        var notes = ImmutableArray.CreateBuilder<NoteSyntax>(1);
        for (var i = 0; i <= text.Length;)
        {
            var length = text[i..].IndexOf('+') is var plus && plus < 0 ? text.Length - i : plus;
            if (Note(text.Slice(i, length), at + i) is not { } note)
                return null;
            notes.Add(note);
            i += length + 1;
        }
        return new(new(at, text.Length), notes.ToImmutable());
    }

    private static NoteSyntax? Note(ReadOnlySpan<char> text, int at)
    {
        var (span, guitar) = (new Span(at, text.Length), (int?)null);
        var body = text;
        if (text.Length > 2 && text[^2] == '@' && char.IsAsciiDigit(text[^1]) && text[^1] != '0')
        {
            body = text[..^2];
            guitar = text[^1] - '0';
        }
        if (guitar is not null && body.Length is 1 or 2 && Digits(body) == body.Length)
            return new(span, null, Number(body), guitar);
        return Pitch(body, at) is { } pitch ? new(span, pitch, null, guitar) : null;
    }

    /// <summary><c>Eb4</c>, <c>F##</c>: capital letter, at most three like accidentals, one digit of octave or <c>-1</c>, or none.</summary>
    public static PitchSyntax? Pitch(ReadOnlySpan<char> text, int at)
    {
        if (text.IsEmpty || text[0] is not (>= 'A' and <= 'G'))
            return null;
        var i = 1;
        while (i < text.Length && i < 4 && text[i] is '#' or 'b' && text[i] == text[1])
            i++;
        int? octave = text[i..] switch
        {
            "" => null, "-1" => -1, [>= '0' and <= '9' and var digit] => digit - '0', _ => int.MinValue,
        };
        return octave == int.MinValue ? null : new(new(at, text.Length), text[0], text.Length > 1 && text[1] == 'b' ? 1 - i : i - 1, octave);
    }

    /// <summary>
    /// A chord symbol: root, suffix, bass; anything that opens with a root is one, its suffix is for the chord reader.
    /// One accidental belongs to the root; a second like it too, unless a number other than 7 follows (<c>Abb5</c> is A flat with something on five).
    /// </summary>
    public static SymbolSyntax? Symbol(string text, int at)
    {
        if (text.Length == 0 || text[0] is not (>= 'A' and <= 'G'))
            return null;
        var root = Accidentals(text, 1);
        var slash = text.LastIndexOf('/');
        var bass = slash >= root && slash + 1 < text.Length && text[slash + 1] is >= 'A' and <= 'G' && Accidentals(text, slash + 2) == text.Length;
        var end = bass ? slash : text.Length;
        return new(new(at, text.Length), text[..root], text[root..end], bass ? text[(slash + 1)..] : null);
    }

    private static int Accidentals(string text, int from)
    {
        if (from >= text.Length)
            return from;
        if (text[from] == '\uD834' && from + 1 < text.Length && text[from + 1] is '\uDD2A' or '\uDD2B')
            return from + 2;
        if (text[from] is not ('#' or 'b' or '♯' or '♭'))
            return from;
        var twice = from + 1 < text.Length && text[from + 1] == text[from] && !(from + 2 < text.Length && text[from + 2] is >= '0' and <= '9' and not '7');
        return twice ? from + 2 : from + 1;
    }

    /// <summary>A shape, perhaps with frets up: <c>low-drop</c>, <c>low-drop+7</c>. Whether the name is a word of the notation is asked elsewhere.</summary>
    public static ShapeSound? Shape(ReadOnlySpan<char> text, int at)
    {
        var plus = text.IndexOf('+');
        var name = plus < 0 ? text : text[..plus];
        var shift = 0;
        if (!IsName(name))
            return null;
        if (plus >= 0)
        {
            var digits = text[(plus + 1)..];
            if (digits.Length is 0 or > 2 || Digits(digits) != digits.Length)
                return null;
            shift = Number(digits);
        }
        return new(new(at, text.Length), name.ToString(), new(at, name.Length), shift, null);
    }

    /// <summary>Starts with a letter, goes on with letters, digits and hyphens, and holds a letter other than x.</summary>
    public static bool IsName(ReadOnlySpan<char> text)
    {
        var other = false;
        for (var i = 0; i < text.Length; i++)
            if (char.IsLetter(text[i]))
                other |= text[i] is not ('x' or 'X');
            else if (i == 0 || text[i] != '-' && !char.IsAsciiDigit(text[i]))
                return false;
        return other;
    }

    /// <summary>Small letters, digits and hyphens only: words of the notation and names of findings.</summary>
    public static bool IsCode(ReadOnlySpan<char> text) => !text.ContainsAnyExcept(CodeSigns);

    /// <summary>Fingers, one a string: <c>x-1-3-2-4-x</c>.</summary>
    public static FingersOperand? Fingers(ReadOnlySpan<char> text, int at)
    {
        var fingers = ImmutableArray.CreateBuilder<Finger>((text.Length + 1) / 2);
        for (var i = 0; i < text.Length; i += 2)
        {
            if (Finger(text.Slice(i, 1)) is not { } finger || i + 1 < text.Length && text[i + 1] != '-' || i + 2 == text.Length)
                return null;
            fingers.Add(finger);
        }
        return fingers.Count < 2 ? null : new(new(at, text.Length), fingers.ToImmutable());
    }

    /// <summary>One finger: <c>1</c> to <c>4</c>, <c>T</c>, <c>0</c> or <c>x</c>.</summary>
    public static Finger? Finger(ReadOnlySpan<char> text) =>
        text is not [var c] ? null : c switch
        {
            'x' => Syntax.Finger.None, 'T' => Syntax.Finger.Thumb, >= '0' and <= '4' => (Finger)(c - '0'), _ => null,
        };

    /// <summary>Fingers of the plucking hand: <c>p-i-m</c>; <c>c</c> is the little one.</summary>
    public static bool IsPluck(ReadOnlySpan<char> text)
    {
        for (var i = 0; i < text.Length; i++)
            if (i % 2 == 0 ? text[i] is not ('p' or 'i' or 'm' or 'a' or 'c' or 'x') : text[i] != '-')
                return false;
        return text.Length % 2 == 1;
    }

    /// <summary>True for a word that a reader takes for a chord symbol: a root, then nothing but what suffixes are made of.</summary>
    public static bool LooksLikeChord(string text)
    {
        if (Symbol(text, 0) is not { } symbol)
            return false;
        for (var i = 0; i < symbol.Suffix.Length;)
        {
            var piece = Pieces.FirstOrDefault(p => string.CompareOrdinal(symbol.Suffix, i, p, 0, p.Length) == 0);
            if (piece is null)
                return false;
            i += piece.Length;
        }
        return true;
    }

    // What suffixes are made of, longest first; common practice.
    private static readonly string[] Pieces =
    [
        "maj", "Maj", "min", "dim", "aug", "sus", "add", "alt", "omit", "dom", "no", "ma", "mi", "m", "M", "o", "j", "h",
        "Δ", "ø", "Ø", "°", "º", "♭", "♯", "#", "b", "+", "-", "−", "–", "(", ")", ",", "/", "^",
        "0", "1", "2", "3", "4", "5", "6", "7", "8", "9",
    ];

    /// <summary>How many digits a text begins with.</summary>
    public static int Digits(ReadOnlySpan<char> text) => text.IndexOfAnyExceptInRange('0', '9') is var end && end < 0 ? text.Length : end;

    /// <summary>The number of a few digits.</summary>
    public static int Number(ReadOnlySpan<char> digits)
    {
        var number = 0;
        foreach (var digit in digits)
            number = 10 * number + digit - '0';
        return number;
    }
}

// What a setting, a mark or a bracket takes, and which part of it is being typed.
using System.Collections.Immutable;
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Theory.Chords;

namespace ChordLang.Features.Completions;

/// <summary>The form of something that takes parts.</summary>
/// <param name="Form">All of it: <c>key TONIC MODE</c>.</param>
/// <param name="Says">A sentence.</param>
/// <param name="Parts">Its parts: where in the form they stand (start and end), and what each is.</param>
/// <param name="Active">The part that is being typed.</param>
public sealed record Signature(string Form, string Says, ImmutableArray<(int Start, int End, string Says)> Parts, int Active);

/// <summary>Tells forms.</summary>
public static class SignatureAt
{
    // First words and what they take: parts in capitals. LANGUAGE.md, settings.
    private static readonly Dictionary<string, (string Form, string Says, string[] Parts)> Forms = new(StringComparer.Ordinal)
    {
        ["key"] = ("key TONIC MODE", "The key, as tonic and mode.", ["A letter with its accidental: Bb.", "major, minor, or a mode such as dorian."]),
        ["meter"] = ("meter COUNTS/UNIT", "How many counts a bar has, and which note is one.", ["Counts in a bar, 1 to 32.", "2, 4, 8 or 16."]),
        ["tempo"] = ("tempo BEATS", "Beats a minute; or rubato, or rubato around 60.", ["Beats a minute."]),
        ["strings"] = ("strings LOWEST … HIGHEST", "The open strings with their octaves, 4 to 9 of them.", ["The lowest string.", "The other strings, up to the highest."]),
        ["capo"] = ("capo FRET", "Where the capo lies; frets count from it.", ["0 to 24."]),
        ["frets"] = ("frets NUMBER", "How many frets the neck has.", ["1 to 36."]),
        ["scale-length"] = ("scale-length LENGTH UNIT", "The open string from nut to bridge.", ["A number.", "mm, cm or in."]),
        ["reach"] = ("reach FROM to LAST", "What the hand reaches without strain.", ["The fret of the first finger.", "The farthest fret the little finger reaches from there."]),
        ["naming"] = ("naming HOW", "How strictly symbols are held against sounds.", ["jazz or strict."]),
        ["position"] = ("position FRET", "Where the first finger stays.", ["1 to 24."]),
        ["shape"] = ("shape NAME = FRETS fingers FINGERS", "A movable voicing with a name.", ["A word of letters, digits and hyphens.", "One slot a string, lowest first: 1-x-1-1-1-x.", "One finger a string: 1-x-2-3-4-x."]),
        ["section"] = ("section NAME", "A named part of the piece; with again behind it, one that stands above.", ["Its name."]),
        ["repeat"] = ("repeat TIMES", "What follows, up to end, is played so often.", ["2 where none is written."]),
        ["ending"] = ("ending NUMBER", "What follows is played that time only.", ["1 for the first time."]),
        ["pickup"] = ("pickup from COUNT", "The next bar is incomplete and begins on this count.", ["A count: 4&."]),
        ["use"] = ("use FILE", "The shapes of another file of the library.", ["Its path in quotes, from this file's folder."]),
        ["expect"] = ("expect CLAIM", "Something that check verifies.", ["no fret above 12, no open strings, only strings 1 2 3 4, bars 32, …"]),
    };

    /// <summary>The form at an offset, or null where nothing takes parts.</summary>
    public static Signature? Of(Lesson lesson, int offset)
    {
        var place = Place.At(lesson, offset);
        if (Bracket(place) is { } bracket)
            return bracket;
        if (place.Opens is not { } first || place.Indented || !Forms.TryGetValue(first, out var form))
            return null;
        var parts = ImmutableArray.CreateBuilder<(int, int, string)>();
        for (var (i, n) = (first.Length, 0); n < form.Parts.Length; n++)
        {
            while (!char.IsUpper(form.Form[i]))
                i++;
            var start = i;
            while (i < form.Form.Length && (char.IsUpper(form.Form[i]) || form.Form[i] == '…'))
                i++;
            parts.Add((start, i, form.Parts[n]));
        }
        return new(form.Form, form.Says, parts.ToImmutable(), Math.Clamp(Active(place, first), 0, parts.Count - 1));
    }

    // Words that stand between the parts are none of them.
    private static int Active(Place place, string first) => first switch
    {
        "meter" => place.Typed.Contains('/') ? 1 : 0,
        "shape" => place.Words.Contains("fingers") ? 2 : place.Words.Contains("=") ? 1 : 0,
        "section" or "use" or "expect" or "pickup" => 0,
        _ => place.Words.Count(w => w != "to") - 1,
    };

    private static Signature? Bracket(Place place)
    {
        var open = place.Typed.LastIndexOf('(');
        if (open < 1 || place.Typed.IndexOf(')', open) >= 0 || place.Typed[0] is < 'A' or > 'G' || !place.Trimmed.StartsWith('|') && place.Words.LastOrDefault() != "is")
            return null;
        var head = place.Typed[..open];
        var inside = place.Typed[(open + 1)..].Split(',');
        var form = $"{head}({string.Join(',', inside.Select((_, i) => $"DEGREE{i + 1}"))})";
        var parts = ImmutableArray.CreateBuilder<(int, int, string)>();
        for (var (i, at) = (0, open + 1); i < inside.Length; i++)
        {
            var length = $"DEGREE{i + 1}".Length;
            parts.Add((at, at + length, ModifierTable.BySpelling.TryGetValue(inside[i], out var m) ? Say.Capital(ChartProposals.Modifies(m)) + "." : "b9, #9, #11, b13, b5, #5, add9, no5, sus4, …"));
            at += length + 1;
        }
        var read = ChordReader.Read(head).Chord;
        return new(form, read is null ? "Degrees in brackets change or add tones; commas part them." : $"{head} has the tones {Say.List(read.Tones.Select(t => $"{t.Name}"))}; degrees in brackets change or add tones, and commas part them.", parts.ToImmutable(), inside.Length - 1);
    }
}

// Proposals for lines of other kinds: the words that open a line, and the values of settings.
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Hovers;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Completions;

internal static class LineProposals
{
    private const int FewestFlats = -6, MostSharps = 6;

    // Common tunings, by their use in the trade: standard, dropped D, seven strings, a tone lower, open D and open G.
    private static readonly (string Strings, string Name)[] Tunings =
    [
        ("E2 A2 D3 G3 B3 E4", "standard"), ("D2 A2 D3 G3 B3 E4", "dropped D"), ("B1 E2 A2 D3 G3 B3 E4", "seven strings, low B"), ("A1 E2 A2 D3 G3 B3 E4", "seven strings, low A"),
        ("D2 G2 C3 F3 A3 D4", "all a tone lower"), ("D2 A2 D3 F#3 A3 D4", "open D"), ("D2 G2 D3 G3 B3 D4", "open G"), ("D2 A2 D3 G3 A3 D4", "D modal"),
    ];

    private static readonly Dictionary<string, string[]> Values = new(StringComparer.Ordinal)
    {
        ["meter"] = ["4/4", "3/4", "2/4", "2/2", "6/8", "9/8", "12/8", "5/4", "7/8"],
        ["tempo"] = ["60", "80", "100", "120", "160", "200", "rubato", "rubato around 60"],
        ["feel"] = ["swing", "straight", "ballad", "bossa", "waltz"],
        ["capo"] = ["1", "2", "3", "4", "5", "7"],
        ["frets"] = ["19", "20", "21", "22", "24"],
        ["scale-length"] = ["628 mm", "635 mm", "648 mm", "650 mm"],
        ["reach"] = ["1 to 5", "3 to 7", "5 to 9"],
        ["naming"] = ["jazz", "strict"],
        ["position"] = ["1", "2", "5", "7", "9"],
        ["repeat"] = ["2", "3", "4"],
        ["ending"] = ["1", "2"],
        ["da"] = ["capo", "capo al fine", "capo al coda"],
        ["dal"] = ["segno", "segno al fine", "segno al coda"],
        ["to"] = ["coda"],
        ["pickup"] = ["from 4", "from 4&", "from 3"],
    };

    private static readonly string[] Claims =
    [
        "no fret above ${1:12}", "no fret below ${1:5}", "no open strings", "only shapes ${1:low-drop}", "only voicings ${1:drop-2}", "only strings ${1:1 2 3 4}", "top note is melody",
        "every voicing named", "at most ${1:4} notes at once", "bars ${1:32}", "no findings",
    ];

    // What each word opens, with an example that can be filled in.
    private static readonly (string Word, string Says, string Snippet)[] Lines =
    [
        ("section", "a named part of the piece", "section ${1:A}"), ("title", "the name of the piece", "title   ${1:Name}"), ("key", "tonic and mode", "key     ${1:C} ${2|major,minor,dorian|}"),
        ("meter", "counts of a bar and the note that is one", "meter   ${1:4/4}"), ("tempo", "beats a minute, or free time", "tempo   ${1:80}"), ("by", "who wrote it", "by      ${1:Name}"),
        ("feel", "how the time is felt", "feel    ${1:swing}"), ("shape", "a movable voicing with a name", "shape ${1:low-drop} = ${2:1-x-1-1-1-x}"), ("use", "the shapes of another file", "use \"${1:shapes.chl}\""),
        ("tags", "words to file it under", "tags    ${1:ballad}"), ("strings", "the open strings, lowest first", "strings ${1:E2 A2 D3 G3 B3 E4}"), ("capo", "the fret it is on", "capo    ${1:2}"),
        ("frets", "how many the neck has", "frets   ${1:22}"), ("scale-length", "the open string's length", "scale-length ${1:648 mm}"), ("reach", "what the hand reaches", "reach   ${1:5} to ${2:9}"),
        ("naming", "jazz or strict", "naming  ${1|jazz,strict|}"), ("position", "the fret of the first finger", "position ${1:5}"), ("expect", "something that check verifies", "expect ${1:no fret above 12}"),
        ("repeat", "what follows is played so often", "repeat ${1:2}"), ("ending", "played that time only", "ending ${1:1}"), ("end", "the end of the repeat", "end"), ("pickup", "an incomplete first bar", "pickup from ${1:4}"),
        ("segno", "the sign to go back to", "segno"), ("coda", "here the coda begins", "coda"), ("to coda", "from here to the coda, the last time", "to coda"), ("fine", "the end after a da capo", "fine"),
        ("da capo", "from the beginning", "da capo ${1|al fine,al coda|}"), ("dal segno", "from the sign", "dal segno ${1|al fine,al coda|}"),
    ];

    // Settings that a piece has once come last where it has them.
    public static IEnumerable<Proposal> Openers(Place place)
    {
        var there = place.Lesson.Tree.Lines.OfType<SettingLine>().Select(s => s.Kind).ToHashSet();
        var lines = Lines.Select(l => place.Whole(ProposalKind.Opener, l.Word, l.Says, l.Snippet)).ToList();
        bool Told(Proposal p) => Vocabulary.Settings.TryGetValue(p.Text, out var kind) && there.Contains(kind);
        return lines.Where(p => !Told(p)).Append(place.Whole(ProposalKind.Opener, "|", "a bar with its chords", "| ${1:Cmaj7}")).Concat(lines.Where(Told));
    }

    public static IEnumerable<Proposal> Setting(Place place, string first, ILibraryNames? library) => first switch
    {
        "key" => Keys(place),
        "strings" => Whole(place, Tunings),
        "tags" => library is null ? [] : library.Tags.Select(t => place.Whole(ProposalKind.Value, t, "a tag of the library")),
        "pickup" when place.Words.Length > 1 => place.Words[^1] == "from" ? Enumerable.Range(1, place.Lesson.SettingsAt(place.Line).Meter.Counts).SelectMany(n => new[] { $"{n}", $"{n}&" }).Select(c => place.Whole(ProposalKind.Count, c)) : [],
        "tempo" when place.Words.Length > 1 => place.Words[^1] == "rubato" ? [place.Whole(ProposalKind.Value, "around", null, "around ${1:60}")] : [],
        _ => place.Words.Length > 1 || !Values.TryGetValue(first, out var values) ? [] : values.Select(v => place.Whole(ProposalKind.Value, v)),
    };

    // Tonics in the order of fifths from none, then the modes, the usual ones first.
    private static IEnumerable<Proposal> Keys(Place place)
    {
        if (place.Words.Length == 1)
            return Enumerable.Range(FewestFlats, MostSharps - FewestFlats + 1).OrderBy(Math.Abs).SelectMany(f => new[] { Of(f, Mode.Major), Of(f, Mode.Minor) })
                .Select(k => place.Whole(ProposalKind.Value, $"{k}", Signature(k.Fifths)));
        return place.Words.Length > 2 ? [] : Vocabulary.Modes.Select(m => place.Whole(ProposalKind.Value, m, Key.TryParse($"{place.Words[1]} {m}", out var key) ? Signature(key.Fifths) : null));

        static Key Of(int fifths, Mode mode) => Theory.Keys.Key.Of(PitchName.FromFifths(mode == Mode.Minor ? fifths + 3 : fifths), mode);
    }

    private static string Signature(int fifths) => fifths switch { 0 => "no sharps or flats", > 0 => Say.Number(fifths, "sharp"), _ => Say.Number(-fifths, "flat") };

    private static IEnumerable<Proposal> Whole(Place place, IEnumerable<(string Text, string Says)> values) =>
        place.Words.Length > 1 ? [] : values.Select(v => place.Whole(ProposalKind.Value, v.Text, v.Says));

    /// <summary>A section that stands above can be played again.</summary>
    public static IEnumerable<Proposal> Section(Place place) => place.Words.Length > 1
        ? place.Lesson.Chart.Piece.Sections.Any(s => !s.Again && s.Line != place.Line && s.Name == string.Join(' ', place.Words.Skip(1))) ? [place.Whole(ProposalKind.Word, "again", "as it stands above")] : []
        : place.Lesson.Chart.Piece.Sections.Where(s => !s.Again && s.Line < place.Line && s.Name.Length > 0)
            .Select(s => place.Whole(ProposalKind.Section, $"{s.Name} again", $"{Say.Number(s.BarCount, "bar")} as they stand above"));

    public static IEnumerable<Proposal> Use(Place place, ILibraryNames? library)
    {
        var quoted = place.Typed.StartsWith('"') ? 1 : 0;
        var told = place.Lesson.Tree.Lines.OfType<UseLine>().Select(u => u.Path).ToHashSet();
        return library is null ? [] : library.Files.Where(f => !told.Contains(f)).Select(f => place.Whole(ProposalKind.File, $"\"{f}\"", quoted == 1 ? null : "its shapes can then be played"));
    }

    public static IEnumerable<Proposal> Shape(Place place) => place.Words switch
    {
        [_, _] => [place.Whole(ProposalKind.Word, "=", "then its frets, lowest string first")],
        [_, _, "="] => Grips(place),
        [_, _, "=", _] => [place.Whole(ProposalKind.Mark, "fingers", "left-hand fingers", "fingers ${1:1-x-2-3-4-x}")],
        _ => [],
    };

    // Grips that the piece plays and that no shape names yet.
    private static IEnumerable<Proposal> Grips(Place place)
    {
        var named = place.Lesson.Piece.Shapes.Values.Select(s => string.Join('-', s.Slots.Select(f => f?.ToString() ?? "x"))).ToHashSet();
        return place.Lesson.Whole.Piece.Events.Where(e => e is { Voicing: not null, Shape: null, Repeated: false, Notes.Length: > 2 }).GroupBy(e => $"{e.Voicing}").OrderByDescending(g => g.Count())
            .Where(g => !named.Contains(g.Key)).Select(g => place.Whole(ProposalKind.Voicing, g.Key, $"played {Say.Number(g.Count(), "time")} in this piece"));
    }

    public static IEnumerable<Proposal> Expect(Place place)
    {
        if (place.Words is [_, "only", "shapes", ..])
            return place.Lesson.Piece.Shapes.Keys.Order(StringComparer.Ordinal).Select(n => place.Whole(ProposalKind.Shape, n));
        var before = string.Join(' ', place.Words.Skip(1));
        return Claims.Select(c => (Plain: Plain(c), Snippet: c)).Where(c => before.Length == 0 || c.Plain.StartsWith(before + " ", StringComparison.Ordinal))
            .Select(c => place.Whole(ProposalKind.Value, before.Length == 0 ? c.Plain : c.Plain[(before.Length + 1)..], null, before.Length == 0 && c.Snippet != c.Plain ? c.Snippet : null));
    }

    /// <summary>Behind <c>// allow</c>: what is found on the lines below first, then every check.</summary>
    public static IEnumerable<Proposal> Comment(Place place)
    {
        if (place.Trimmed.StartsWith("// allow", StringComparison.Ordinal) && place.Words is [_, "allow"] or ["//allow"])
        {
            var from = place.Lesson.Text.Lines[place.Line].End;
            var near = place.Lesson.Findings.Where(f => f.Span.Start > from).OrderBy(f => f.Span.Start).Select(f => f.Code);
            return near.Concat(CheckCatalogue.All.Select(c => c.Code)).Distinct()
                .Select(code => place.Whole(ProposalKind.Check, $"{code}:", CheckCatalogue.All.FirstOrDefault(c => c.Code == code)?.Title, $"{code}: ${{1:reason}}"));
        }
        return place.Words is ["//"] ? [place.Whole(ProposalKind.Word, "allow", "silences a finding on the next line of music, with a reason")] : [];
    }

    /// <summary>A snippet with its places filled in.</summary>
    private static string Plain(string snippet)
    {
        var open = snippet.IndexOf("${", StringComparison.Ordinal);
        return open < 0 ? snippet : snippet[..open] + snippet[(snippet.IndexOf(':', open) + 1)..snippet.IndexOf('}', open)] + snippet[(snippet.IndexOf('}', open) + 1)..];
    }
}

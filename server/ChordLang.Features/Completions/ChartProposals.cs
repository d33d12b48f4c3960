// Proposals on a chart line: counts still free, chords that fit, and how a symbol that is being typed may go on.
using ChordLang.Features.Hovers;
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Features.Completions;

internal static class ChartProposals
{
    // The seventh chords that a key holds, one on each degree (common practice).
    private static readonly string[] Sevenths = ["maj7", "m7", "7", "m7b5", "6", "m6", "dim7"];

    // Names from books of classical harmony, and such that players write otherwise.
    private static readonly HashSet<string> Rare = ["Neapolitan", "Italian", "French", "German", "Tristan", "pedal", "quartal"];

    public static IEnumerable<Proposal> Of(Place place)
    {
        if (place.Typed.Length > 0 && char.IsAsciiDigit(place.Typed[0]))
            return Counts(place);
        if (place.Typed.Length > 0)
            return Symbol(place, place.Typed);
        var counted = place.Words.LastOrDefault() is { } last && char.IsAsciiDigit(last[0]) && !place.Before.TrimEnd().EndsWith('|');
        return Chords(place).Concat(counted ? [] : Counts(place)).Concat(Signs(place));
    }

    /// <summary>How a symbol may go on, for the word under the cursor.</summary>
    public static IEnumerable<Proposal> Symbol(Place place, string typed)
    {
        var root = RootLength(typed);
        if (root == 0)
            return Chords(place);
        if (typed.LastIndexOf('(') is var open && open > 0 && typed.IndexOf(')', open) < 0)
            return Degrees(place, Math.Max(open, typed.LastIndexOf(',')) + 1);
        if (typed.LastIndexOf('/') is var slash && slash >= root && (slash + 1 == typed.Length || typed[slash + 1] is >= 'A' and <= 'G'))
            return Basses(place, typed[..slash], slash + 1);
        return Qualities(place, typed, root);
    }

    // Chords of the piece, the last one first, then those of the key.
    private static IEnumerable<Proposal> Chords(Place place)
    {
        var (lesson, told) = (place.Lesson, new HashSet<string>(StringComparer.Ordinal));
        var (written, functions) = (lesson.Harmony.Written, lesson.Harmony.Functions);
        foreach (var i in Enumerable.Range(0, written.Places.Length).Where(i => !written.Places[i].Span.Touches(place.Word.Start)).OrderBy(i => Math.Abs(written.Places[i].Span.Start - place.Word.Start)))
            if (told.Add(written.Places[i].Symbol))
                yield return place.Whole(ProposalKind.Chord, written.Places[i].Symbol, $"{functions[i].Numeral} in {functions[i].Key}, in {Say.Bar(written.Chart.Chords[i].Bar)}");
        var bar = lesson.LastBarBefore(place.Line);
        if (((bar?.Settings ?? lesson.Piece.Settings).Key ?? lesson.Harmony.Keys.At(bar?.Number ?? 1)) is not { Tonic: { } tonic } key)
            yield break;
        foreach (var root in Scale(key, tonic))
            foreach (var quality in Sevenths)
                if (ChordReader.Read($"{root}{quality}").Chord is { } chord && chord.Tones.All(t => key.Holds(t.Name.PitchClass)) && told.Add(chord.Symbol))
                {
                    yield return place.Whole(ProposalKind.Chord, chord.Symbol, $"of {key}: {string.Join(' ', chord.Tones.Select(t => t.Name))}");
                    break;
                }
    }

    internal static IEnumerable<PitchName> Scale(Key key, PitchName tonic) =>
        Enumerable.Range(-1, 7).Select(k => PitchName.FromFifths(key.Fifths + k)).OrderBy(n => (n.Letter - tonic.Letter + 7) % 7);

    private static IEnumerable<Proposal> Qualities(Place place, string typed, int root)
    {
        var name = typed[..root];
        foreach (var row in ChordTable.All)
            if (!Rare.Contains(row.Text))
                yield return place.Whole(ProposalKind.Chord, name + row.Text, Tones(name + row.Text));
        if (ChordReader.Read(typed).Chord is null)
            yield break;
        foreach (var modifier in ModifierTable.All)
            if (!modifier.Enclosed && ChordReader.Read(typed + modifier.Text).Chord is not null)
                yield return place.Whole(ProposalKind.Chord, typed + modifier.Text, Tones(typed + modifier.Text));
    }

    private static string? Tones(string symbol) => ChordReader.Read(symbol).Chord is { } chord ? string.Join(' ', chord.Tones.Select(t => t.Name)) : null;

    private static IEnumerable<Proposal> Degrees(Place place, int skip) =>
        ModifierTable.All.Where(m => !m.Text.StartsWith("maj", StringComparison.Ordinal)).Select(m => place.From(skip, ProposalKind.Part, m.Text, Modifies(m)));

    internal static string Modifies(ChordModifier modifier)
    {
        var degrees = Say.List(modifier.Degrees.Select(d => d.Spoken()));
        return modifier.Kind switch
        {
            ModifierKind.Omit => $"leaves out the {degrees}",
            ModifierKind.Suspend => $"the {degrees} in the place of the third",
            _ => $"with the {degrees}",
        };
    }

    private static IEnumerable<Proposal> Basses(Place place, string above, int skip) => ChordReader.Read(above).Chord is not { } chord ? []
        : chord.Tones.Where(t => t.Degree.Number != 1).Select(t => place.From(skip, ProposalKind.Part, $"{t.Name}", $"the {t.Degree.Spoken()} in the bass"));

    private static IEnumerable<Proposal> Counts(Place place)
    {
        var bars = place.Lesson.BarsOn(place.Line).ToList();
        if (bars.Count == 0)
            return [];
        var start = place.Lesson.Text.Lines[place.Line].Start;
        var bar = bars.LastOrDefault(b => b.Syntax.BarLine.Start + start < place.Word.Start + 1) ?? bars[0];
        var taken = bar.Syntax.Items.Where(i => i.Count is not null && !i.Count.Span.Shift(start).Touches(place.Word.Start)).ToList();
        var before = taken.Where(i => i.Span.Start + start < place.Word.Start).Select(i => i.Count!.Offset).DefaultIfEmpty(bar.From - 1).Max();
        var uncounted = bar.Syntax.Items.Any(i => i.Count is null && i.Span.End + start <= place.Word.Start);
        var after = taken.Where(i => i.Span.Start + start > place.Word.Start).Select(i => i.Count!.Offset).DefaultIfEmpty(bar.From + bar.Length / bar.Settings.Meter.Count).Min();
        return FreeCounts.Between(place, uncounted && before < bar.From ? bar.From : before, after);
    }

    private static IEnumerable<Proposal> Signs(Place place) =>
    [
        place.Whole(ProposalKind.Word, "%", "the bar before again"),
        place.Whole(ProposalKind.Word, "N.C.", "no chord"),
        place.Whole(ProposalKind.Word, "/", "the chord before for one count more"),
    ];

    // An accidental right behind the letter is the root's.
    private static int RootLength(string typed) => typed[0] is < 'A' or > 'G' ? 0 : typed.Length > 1 && typed[1] is 'b' or '#' or '♭' or '♯' ? 2 : 1;
}

internal static class FreeCounts
{
    /// <summary>The counts between two places in the bar, both left out: halves too, and thirds and quarters once a number is typed.</summary>
    public static IEnumerable<Proposal> Between(Place place, Rational before, Rational after)
    {
        Rational[] parts = place.Typed.Length > 0 ? [Rational.Zero, Rational.Of(1, 2), Rational.Of(1, 4), Rational.Of(3, 4), Rational.Of(1, 3), Rational.Of(2, 3)] : [Rational.Zero, Rational.Of(1, 2)];
        foreach (var part in parts)
            for (var whole = Math.Max(0, before.Floor); whole <= after.Floor; whole++)
                if (Rational.Of(whole) + part is var offset && offset > before && offset < after)
                    yield return place.Whole(ProposalKind.Count, CountSyntax.Write(offset), $"say \"{Say.Spoken(offset)}\"");
    }
}

// Makes the slips of one text and looks what is found of each.
using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Theory.Chords;

namespace ChordLang.Mutation;

/// <summary>What became of a slip under one kind of naming.</summary>
/// <param name="Caught">A warning stands at the voicing.</param>
/// <param name="RightFixFirst">The first fix of a warning brings the voicing back.</param>
internal readonly record struct Outcome(bool Caught, bool RightFixFirst);

/// <summary>A slip.</summary>
/// <param name="Symbol">The chord symbol.</param>
/// <param name="Kind">Its MusicXML kind.</param>
/// <param name="Whole">True for a move to another string set, false for one fret.</param>
/// <param name="From">The voicing as it was.</param>
/// <param name="To">The voicing after the slip.</param>
/// <param name="Same">True where the degrees stay the same, so that there is nothing to catch.</param>
/// <param name="Jazz">Under <c>naming jazz</c>; null where the voicing was under a warning before.</param>
/// <param name="Strict">Under <c>naming strict</c>; null likewise.</param>
internal sealed record Mutant(string Symbol, string Kind, bool Whole, Voicing From, Voicing To, bool Same, Outcome? Jazz, Outcome? Strict);

internal static partial class Mutants
{
    private static readonly ImmutableArray<Check> NameChecks = [.. CheckCatalogue.All.Where(c => c.Code.StartsWith("name-", StringComparison.Ordinal))];

    /// <summary>Every slip of every voicing under a chord symbol.</summary>
    public static IEnumerable<Mutant> Of(string text)
    {
        var (jazz, strict) = (new Ground(With(text, "jazz")), new Ground(With(text, "strict")));
        foreach (var place in jazz.Places)
            foreach (var (to, whole) in Slips(place))
            {
                var same = Classes(place, to).SetEquals(Classes(place, place.Event.Voicing!));
                yield return new(place.Chord.Symbol, place.Chord.Kind, whole, place.Event.Voicing!, to, same,
                    same ? null : jazz.Try(place.Number, to), same ? null : strict.Try(place.Number, to));
            }
    }

    private static IEnumerable<(Voicing To, bool Whole)> Slips(Place place)
    {
        var (voicing, neck) = (place.Event.Voicing!, place.Bar.Settings.Neck);
        foreach (var s in voicing.Played)
            foreach (var by in (int[])[-2, -1, 1, 2])
                if (voicing[s] + by is >= 0 and var fret && fret <= neck.HighestFret)
                    yield return (new(voicing.Slots.SetItem(voicing.Strings - s, fret)), false);
        if (voicing.Slots[0] is null)
            yield return (new([.. voicing.Slots[1..], null]), true);
        if (voicing.Slots[^1] is null)
            yield return (new([null, .. voicing.Slots[..^1]]), true);
    }

    private static HashSet<int> Classes(Place place, Voicing voicing) =>
        [.. voicing.Played.Select(s => place.Chord.IntervalOf(place.Bar.Settings.Neck.Midi(s, voicing[s]!.Value)))];

    private static string With(string text, string naming) => $"naming {naming}\n" + NamingLine().Replace(text, "");

    [GeneratedRegex(@"(?m)^[ \t]*naming\b.*\n")]
    private static partial Regex NamingLine();

    private sealed record Place(int Number, Bar Bar, Event Event, Chord Chord);

    private sealed class Ground
    {
        private readonly LineCache cache = new();
        private readonly SourceText source;
        private readonly Dictionary<int, int> before;

        public Ground(string text)
        {
            source = SourceText.From(text);
            var piece = Bind(source);
            Places = [.. Found(piece).Select((p, i) => p with { Number = i })];
            before = Warnings(piece).GroupBy(Line).ToDictionary(g => g.Key, g => g.Count());
        }

        public ImmutableArray<Place> Places { get; }

        public Outcome? Try(int number, Voicing to)
        {
            var place = Places[number];
            if (before.GetValueOrDefault(place.Event.Line) > 0)
                return null;
            var piece = Bind(source.With([new(place.Event.SoundSpan, to.ToString())]));
            var found = Warnings(piece).Where(f => Line(f) == place.Event.Line).ToArray();
            return new(found.Length > 0, found.Any(f => f.Fixes is [var first, ..]
                && Bind(piece.Tree.Source.With(first.Edits)).Events.Any(e => e.SoundSpan.Start == place.Event.SoundSpan.Start && Equals(e.Voicing, place.Event.Voicing))));
        }

        private Piece Bind(SourceText text) => Binder.Bind(SyntaxTree.Parse(text, cache));

        private static IEnumerable<Place> Found(Piece piece) => piece.Events
            .Where(e => e is { Kind: EventKind.Struck, Repeated: false, Syntax: not null, Voicing: not null }
                && e.Notes.Select(n => n.Midi % 12).Distinct().Count() >= 3 && !e.Notes.Any(n => n.Harmonic || n.Dead))
            .Select(e => (Event: e, Chord: e.Is ?? piece.ChordAt(e.Onset)?.Chord))
            .Where(e => e.Chord is not null).Select(e => new Place(0, piece.Bars[e.Event.Bar], e.Event, e.Chord!));

        private static IEnumerable<Finding> Warnings(Piece piece) => CheckCatalogue.Run(piece, NameChecks).Where(f => f.Severity <= Severity.Warning);

        private int Line(Finding finding) => source.LineAt(Math.Min(finding.Span.Start, source.Text.Length));
    }
}

// What harmony and practice add to a sheet: numerals, what remains without decoration, bars worth practising; the same for the page and the live view.
using System.Collections.Immutable;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Charts;
using ChordLang.Checks.Practice;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Skeleton;

namespace ChordLang.Features.Sheets;

/// <summary>Words for sheets, by where the chord is written.</summary>
public static class SheetWords
{
    // As many spots as `chordlang practice` shows.
    private const int Practised = 5;

    /// <summary>The numeral of each chord.</summary>
    public static IReadOnlyDictionary<int, string> Numerals(WrittenChart written, ImmutableArray<ChordFunction> functions)
    {
        var numerals = new Dictionary<int, string>();
        foreach (var (place, function) in written.Places.Zip(functions))
            numerals.TryAdd(place.Span.Start, function.Numeral);
        return numerals;
    }

    /// <summary>The chords of the first level at which the piece is reduced.</summary>
    public static IReadOnlySet<int> Remaining(WrittenChart written, ChordSkeleton skeleton) =>
        skeleton.Levels.Where(l => l.Level > 0).OrderBy(l => l.Level).Take(1).SelectMany(l => l.Indices).Select(i => written.Places[i].Span.Start).ToHashSet();

    /// <summary>Numbers of the bars that are likely the hardest.</summary>
    public static IReadOnlySet<int> Practise(Piece piece, ILibrary? library) => PracticeSpots.Of(piece, library).Take(Practised).Select(s => s.Bars[0]).ToHashSet();
}

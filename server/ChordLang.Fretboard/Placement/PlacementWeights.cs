// What makes one place for a note better than another: a table of weights, read from the text that stands beside it.
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;

namespace ChordLang.Fretboard.Placement;

/// <summary>A row of the cost of a placement; a negative weight is a preference.</summary>
/// <param name="Says">What it is about where it costs much, in plain words.</param>
/// <param name="Of">What each weight is for.</param>
/// <param name="Weights">Cost of one of it.</param>
public sealed record PlacementWeights(string Says, string Of, ImmutableArray<double> Weights)
{
    // Where each row begins; a test holds these against the table.
    internal const int Fret = 0, Open = 64, Strings = 70, Width = 94, Needed = 102, Lie = 108, Reach = 113, Shift = 131, Again = 172, Cut = 178,
        Held = 179, Pair = 191, Near = 345, Along = 807, Melody = 858, Asked = 1068, Slur = 1070, Count = 1071;

    /// <summary>The table; its origin is told in its first lines.</summary>
    public static ImmutableArray<PlacementWeights> Table { get; } = Load();

    internal static readonly double[] Flat = [.. Table.SelectMany(t => t.Weights)];

    /// <summary>By weight: the row it stands in.</summary>
    internal static readonly int[] RowOf = [.. Table.SelectMany((t, row) => Enumerable.Repeat(row, t.Weights.Length))];

    private static ImmutableArray<PlacementWeights> Load()
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("placement.tsv") ?? throw new InvalidOperationException("no table placement.tsv");
        using var reader = new StreamReader(stream);
        return
        [
            .. reader.ReadToEnd().Split('\n').Where(l => l.Length > 0 && !l.StartsWith("//", StringComparison.Ordinal)).Select(l => l.Split('\t'))
                .Select(cells => new PlacementWeights(cells[0], cells[1], [.. cells[2].Split(' ').Select(w => double.Parse(w, CultureInfo.InvariantCulture))])),
        ];
    }
}

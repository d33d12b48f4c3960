// Holds a piece to what its writer promised of it.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Configuring;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Checks.Expect;

/// <summary>Reports an <c>expect</c> line that does not hold, what breaks it, and where.</summary>
public sealed class UnmetExpectation : Check
{
    private const int MostPlaces = 20;
    private readonly Configuration configuration;

    /// <summary>The check where nothing is configured.</summary>
    public UnmetExpectation() : this(Configuration.None)
    {
    }

    /// <summary>The check where some levels are configured: what is off there is no finding here.</summary>
    public UnmetExpectation(Configuration configuration) => this.configuration = configuration;

    /// <inheritdoc/>
    public override string Code => "text-unmet-expectation";

    /// <inheritdoc/>
    public override string Title => "An expectation that the piece does not keep";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Warning;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => piece.Expectations.SelectMany(e => Judge(piece, e));

    private IEnumerable<Finding> Judge(Piece piece, Expected expected)
    {
        var wanted = expected.Expectation;
        if (wanted.Kind == ExpectKind.Bars)
            return Bars(piece, expected);
        // A shape that is defined nowhere is told where its name stands; what it would allow cannot be known.
        if (wanted.Kind == ExpectKind.OnlyShapes && wanted.Names.Any(n => !piece.Shapes.ContainsKey(n)))
            return [];
        var breaks = (wanted.Kind == ExpectKind.NoFindings ? Findings(piece) : Broken.Find(piece, wanted)).DistinctBy(b => b.Span).ToImmutableArray();
        return breaks.IsEmpty ? [] :
        [
            new(Code, Severity, $"This expects {Claim(piece, expected)}, but {breaks[0].Sentence}{More(breaks.Length - 1)}. Change the music, or what is expected of it.", expected.Span)
            {
                Related = [.. breaks.Take(MostPlaces).Select(b => new Related(Capital(b.Sentence) + ".", b.Span, null))],
                Strings = breaks[0].Strings,
            },
        ];
    }

    private IEnumerable<Finding> Bars(Piece piece, Expected expected)
    {
        var (wanted, found) = (expected.Expectation.Number, piece.Bars.Count(b => b.Number > 0));
        if (wanted == found)
            return [];
        var written = piece.Tree.Source[expected.Span];
        return
        [
            new(Code, Severity, $"This expects {Count(wanted, "bar")}, but {Count(found, "bar")} {(found == 1 ? "is" : "are")} written; a pickup does not count. "
                + $"Look for a bar line that is {(found < wanted ? "missing" : "too many")}, or change the number.", expected.Span)
            {
                Fixes = [new($"Expect {Count(found, "bar")}", false, [new(expected.Span, written.Replace($"{wanted}", $"{found}", StringComparison.Ordinal))])],
            },
        ];
    }

    // What the other checks find; an allow for this check silences nothing there, and is not to be blamed for it.
    private IEnumerable<Broken> Findings(Piece piece)
    {
        var others = piece with { Allows = [.. piece.Allows.Where(a => a.Code != Code)] };
        return configuration.Apply(CheckCatalogue.Run(others, [.. CheckCatalogue.All.Where(c => c is not UnmetExpectation)]))
            .Select(f => new Broken(f.Span, $"{(f.Bar is { } bar ? $"bar {bar}" : "the text before the first bar")} has the finding {f.Code}", f.Strings));
    }

    private static string Claim(Piece piece, Expected expected) => piece.Tree.Source[expected.Span];

    private static string More(int more) => more switch { 0 => "", 1 => ", and one more place breaks it too", _ => $", and {more} more places break it too" };

    private static string Count(int number, string noun) => number == 1 ? $"1 {noun}" : $"{number} {noun}s";

    private static string Capital(string sentence) => char.ToUpperInvariant(sentence[0]) + sentence[1..];
}

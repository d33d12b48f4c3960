// The samples keep their word: the valid ones are clean, and each slip planted in the broken ones is found, named and repaired.
using System.Collections.Immutable;
using ChordLang.Arrangement.Placing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Grammar.Formatting;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Checks.Tests.Samples;

public sealed class SampleTests
{
    public static TheoryData<string> Valid => [.. Repository.Samples("valid")];
    public static TheoryData<string> Broken => [.. Repository.Samples("broken")];

    [Theory, MemberData(nameof(Valid))]
    public void A_valid_sample_is_clean(string path) =>
        Assert.Empty(Check(path, Source(path)).Where(f => f.Severity is Severity.Error or Severity.Warning).Select(f => $"{f.Bar} {f.Code} {f.Message}"));

    // What the program puts on the strings has to pass its own checks: otherwise one of the two, or the sample, is wrong.
    [Theory, MemberData(nameof(Valid))]
    public void A_valid_sample_is_clean_with_every_note_on_a_string(string path)
    {
        var source = Source(path);
        var piece = LibraryOfSamples.Bind(path, source);
        foreach (var anew in new[] { false, true })
            Assert.Empty(Check(path, source.With(PlacedPiece.Of(piece, piece.Settings.Hand, anew).Edits()))
                .Where(f => f.Severity is Severity.Error or Severity.Warning).Select(f => $"{f.Bar} {f.Code} {f.Message}"));
    }

    [Theory, MemberData(nameof(Valid))]
    public void A_valid_sample_is_in_canonical_form(string path) => Assert.Empty(Formatter.Format(SyntaxTree.Parse(Source(path))));

    [Fact]
    public void Over_the_valid_samples_there_is_at_most_one_hint_in_ten_bars()
    {
        var paths = Repository.Samples("valid");
        var bars = paths.Sum(p => LibraryOfSamples.Bind(p).Bars.Length);
        var hints = paths.Sum(p => Check(p, Source(p)).Count(f => f.Severity == Severity.Hint));
        Assert.True(bars > 200 && hints * 10 <= bars, $"{hints} hints in {bars} bars");
    }

    [Theory, MemberData(nameof(Broken))]
    public void A_planted_slip_is_found_where_it_stands_with_its_fix_and_nothing_else(string path)
    {
        var found = Assert.Single(Check(path, Source(path)));
        Assert.Equal(Repository.Text(Path.ChangeExtension(path, ".expected")), Told(found));
    }

    [Theory, MemberData(nameof(Broken))]
    public void The_first_fix_of_a_planted_slip_leaves_no_finding(string path)
    {
        var source = Source(path);
        foreach (var fix in Check(path, source).SelectMany(f => f.Fixes.Take(1)))
            Assert.Empty(Check(path, source.With(fix.Edits)).Select(f => $"after '{fix.Title}': {f.Code} {f.Message}"));
    }

    [Fact]
    public void Every_error_and_warning_has_a_sample_that_shows_it()
    {
        var shown = Repository.Samples("broken").Select(p => Repository.Text(Path.ChangeExtension(p, ".expected")).Split('\n')[0]["finds: ".Length..]);
        // A loss is found on the way to another key, never in a file.
        Assert.Empty(CheckCatalogue.All.Where(c => c.Severity is Severity.Error or Severity.Warning && c is not LossCheck).Select(c => c.Code).Except(shown));
    }

    private static SourceText Source(string path) => SourceText.From(Repository.Bytes(path));

    private static ImmutableArray<Finding> Check(string path, SourceText source) =>
        CheckCatalogue.Run(LibraryOfSamples.Bind(path, source));

    private static string Told(Finding f) => $"""
        finds: {f.Code}
        severity: {f.Severity.ToString().ToLowerInvariant()}
        bar: {f.Bar?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "none"}
        count: {f.Count ?? "none"}
        strings: {(f.Strings.IsEmpty ? "none" : string.Join(' ', f.Strings))}
        first fix: {(f.Fixes.IsEmpty ? "none" : f.Fixes[0].Title)}

        """;
}

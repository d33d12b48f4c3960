// The list of checks is whole: none forgotten, each with its page, and one that breaks takes no other with it.
using System.Globalization;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Testing;

namespace ChordLang.Checks.Tests.Catalogue;

public sealed partial class CatalogueTests
{
    private static readonly string[] Families = ["text", "form", "count", "fret", "name", "spelling", "hand", "ring", "tool"];

    public static TheoryData<string> Codes => [.. CheckCatalogue.All.Select(c => c.Code)];

    [Fact]
    public void Every_check_class_is_in_the_list_once()
    {
        var classes = typeof(Check).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Check)) && !t.IsAbstract).Select(t => t.FullName).Order();
        Assert.Equal(classes, CheckCatalogue.All.Select(c => c.GetType().FullName).Distinct().Order());
        Assert.Equal(CheckCatalogue.All.Length, CheckCatalogue.All.Select(c => c.Code).Distinct().Count());
        Assert.All(typeof(Check).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Check))), t => Assert.True(t.IsSealed || t.IsAbstract));
    }

    [Fact]
    public void Every_page_belongs_to_a_check()
    {
        var pages = typeof(Check).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(".md", StringComparison.Ordinal)).Select(n => n[..^3]);
        Assert.Empty(pages.Except(CheckCatalogue.All.Select(c => c.Code)));
    }

    // What merge tools leave: two versions, or three with the one that both come from, or markers that lost their others.
    [Theory]
    [InlineData("| A\n<<<<<<< x\n| B\n=======\n| C\n>>>>>>> y\n| D\n", 1, "| A\n| B\n| D\n", "| A\n| C\n| D\n")]
    [InlineData("<<<<<<< x\n| B\n||||||| o\n| A\n=======\n| C\n>>>>>>> y\n", 1, "| B\n", "| C\n")]
    [InlineData("<<<<<<< x\n| B\n=======\n| C\n>>>>>>> y\n<<<<<<< x\n=======\n| E\n>>>>>>> y\n", 2, null, null)]
    [InlineData("=======\n| C\n>>>>>>> y\n| D\n>>>>>>>\n", 2, null, null)]
    [InlineData("<<<<<<< x\n<<<<<<< x\n| B\n", 2, null, null)]
    public void A_conflict_is_told_once(string text, int times, string? first, string? second)
    {
        var found = Checked.Run(text).Where(f => f.Code == "text-merge-marker").ToList();
        Assert.Equal(times, found.Count);
        if (first is null)
            return;
        Assert.Equal([first, second], found[0].Fixes.Select(f => Checked.Apply(text, f)));
        Assert.DoesNotContain(found[0].Fixes, f => f.Safe);
    }

    [Theory, MemberData(nameof(Codes))]
    public void Names_start_with_their_family(string code)
    {
        Assert.Matches(CodeForm(), code);
        Assert.Contains(code[..code.IndexOf('-')], Families);
    }

    [Theory, MemberData(nameof(Codes))]
    public void Each_check_has_a_whole_page(string code)
    {
        var check = CheckCatalogue.All.Single(c => c.Code == code);
        var page = CheckCatalogue.Page(code);
        Assert.NotNull(page);
        Assert.StartsWith($"# {check.Title}\n", page);
        var headings = HeadingForm().Matches(page).Select(m => m.Groups[1].Value);
        // No file can make the checker break down on purpose, so that page alone has nothing wrong to show.
        Assert.Equal(code.StartsWith("tool-", StringComparison.Ordinal)
            ? ["What", "Why it matters in music", "When to ignore"]
            : ["What", "Why it matters in music", "Wrong", "Right", "When to ignore"], headings);
        if (code.StartsWith("tool-", StringComparison.Ordinal))
            return;
        Assert.NotEmpty(MarkedText.Fences(page, "Right"));
        Assert.All(MarkedText.Fences(page, "Wrong"), f => Assert.Contains(MarkedText.Read(f).Marks, m => m.Code == code));
        Assert.NotEmpty(MarkedText.Fences(page, "Wrong"));
    }

    [Theory, MemberData(nameof(Codes))]
    public void What_a_page_calls_wrong_is_found_as_marked(string code) =>
        Assert.All(MarkedText.Fences(CheckCatalogue.Page(code)!, "Wrong"), f => Expect(code, f));

    [Theory, MemberData(nameof(Codes))]
    public void What_a_page_calls_right_is_clean(string code) =>
        Assert.All(MarkedText.Fences(CheckCatalogue.Page(code)!, "Right"), f => Expect(code, f));

    // A page about transpositions says in its fences how to transpose, and its marks stand under what was lost on the way.
    private static void Expect(string code, string fence)
    {
        if (CheckCatalogue.All.Single(c => c.Code == code) is not LossCheck check)
        {
            Checked.Expect(fence);
            return;
        }
        var (marked, piece) = (MarkedText.Read(fence), Checked.Bind(MarkedText.Read(fence).Text));
        var by = int.Parse(TransposedForm().Match(fence).Groups[1].Value, CultureInfo.InvariantCulture);
        var moved = Transposition.Of(piece, IntervalChoice.By(piece, by));
        var lost = check.Of(moved).Zip(moved.Losses, (f, l) => new Mark(l.Source.Start, l.Source.Length, f.Code, f.Message)).ToList();
        Assert.Equal(moved.Losses.Length, lost.Count);
        Snippet.ShouldFind(marked, lost);
        Assert.Equal(lost.Count, TransposedFindings.Of(moved).Length);
    }

    [Fact]
    public void An_unknown_name_has_no_page() => Assert.Null(CheckCatalogue.Page("name-nothing"));

    [Fact]
    public void A_check_that_breaks_is_said_and_the_others_go_on()
    {
        var found = CheckCatalogue.Run(Checked.Bind(""), [new Broken(), new Sound()]);
        Assert.Equal(["text-sound", "tool-check-failed"], found.Select(f => f.Code));
        Assert.Contains("text-broken", found[1].Message);
        Assert.Equal(Severity.Information, found[1].Severity);
    }

    private sealed class Broken : Check
    {
        public override string Code => "text-broken";
        public override string Title => "Broken";
        public override Severity Severity => Severity.Warning;

        public override IEnumerable<Finding> Find(Piece piece)
        {
            yield return new(Code, Severity, "half the truth", new(0, 0));
            throw new InvalidOperationException("on purpose");
        }
    }

    private sealed class Sound : Check
    {
        public override string Code => "text-sound";
        public override string Title => "Sound";
        public override Severity Severity => Severity.Warning;
        public override IEnumerable<Finding> Find(Piece piece) => [new(Code, Severity, "here", new(0, 0))];
    }

    [GeneratedRegex("^[a-z]+(-[a-z]+)+$")]
    private static partial Regex CodeForm();

    [GeneratedRegex("^// chordlang transpose --by (-?[0-9]+)\n")]
    private static partial Regex TransposedForm();

    [GeneratedRegex("(?m)^## (.+)$")]
    private static partial Regex HeadingForm();
}

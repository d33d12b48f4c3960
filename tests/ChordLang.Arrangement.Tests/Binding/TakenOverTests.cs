// What is bound of a version after an edit, with the help of the version before, is what is bound afresh.
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Placing;
using ChordLang.Fretboard.Hands;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;
using ChordLang.Testing;

namespace ChordLang.Arrangement.Tests.Binding;

public sealed class TakenOverTests
{
    private const int Edits = 40;

    public static TheoryData<string> Samples => [.. Directory.EnumerateFiles(Repository.At("samples"), "*.chl", SearchOption.AllDirectories).Select(p => Path.GetRelativePath(Repository.At("."), p).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Samples))]
    public void After_any_edit_all_is_as_if_bound_afresh(string sample)
    {
        var dice = new Dice(sample.Length * 131 + sample[^5]);
        var (cache, memory) = (new LineCache(), new BindingMemory());
        var tree = SyntaxTree.Parse(SourceText.From(File.ReadAllText(Repository.At(sample))), cache);
        var library = new Beside(Path.GetDirectoryName(Repository.At(sample))!);
        var (undo, placed) = (new Stack<TextEdit>(), (PlacedPiece?)null);
        for (var i = 0; i < Edits; i++)
        {
            var (piece, fresh) = (Binder.Bind(tree, library, memory: memory), Binder.Bind(tree, library));
            Assert.True(SameValues.Differ(fresh, piece, typeof(SyntaxTree)) is null, $"after edit {i} of {sample}, piece{SameValues.Differ(fresh, piece, typeof(SyntaxTree))}\n{tree.Source.Text}");
            Assert.All(piece.Events.Where(e => e.Shape is { }), e => Assert.Same(piece.Shapes[e.Shape!.Name], e.Shape));
            placed = PlacedPiece.Of(piece, Hand.Medium, before: placed);
            var anew = PlacedPiece.Of(fresh, Hand.Medium);
            Assert.True(SameValues.Differ(anew.Events, placed.Events) is null, $"after edit {i} of {sample}, placed{SameValues.Differ(anew.Events, placed.Events)}");
            Assert.Equal(anew.Cost, placed.Cost, 3);
            Assert.Equal(anew.Parts.Select(p => (p.Says, p.Bar)), placed.Parts.Select(p => (p.Says, p.Bar)));
            // Half of the edits are taken back, as one does.
            var edit = undo.Count > 0 && dice.Next(3) == 0 ? undo.Pop() : TypedEdit.In(tree, dice);
            if (dice.Next(2) == 0)
                undo.Clear();
            else
                undo.Push(new(new(edit.Span.Start, edit.NewText.Length), tree.Source.Text.Substring(edit.Span.Start, edit.Span.Length)));
            tree = tree.With(edit, out _, cache);
        }
    }

    [Theory]
    [InlineData("| C\n    1 C4\n| F\n    1 tied  3 F4\n", "1 tied", "1 rest")]
    [InlineData("| C\n    1 C4@2\n| F\n    1 again accent  3 tied\n", "C4@2", "D4@2")]
    [InlineData("| C\n    1 C4@2 ring over\n| F\n    2 F4@1\n", "F4@1", "F4@2")]
    [InlineData("| C\n    top: 1 C4\n| F\n    top: 1 tied\n| G\n    top: 1 tied\n", "top: 1 tied", "low: 1 tied")]
    [InlineData("| C\n    1 C4\n| %\n| %\n| F\n    1 again\n", "1 C4", "1 D4")]
    [InlineData("shape s = x-3-2-0-1-0\n| C\n    1 s\n| F\n    1 s\n", "3-2-0", "3-2-2")]
    [InlineData("shape s = x-3-2-0-1-0\nshape t = x-x-2-0-1-0\n| C\n    1 s\n| F\n    1 t\n| F\n    1 C4\n", "C4", "s")]
    [InlineData("shape s = x-3-2-0-1-0\nshape t = x-x-2-0-1-0\n| C\n    1 s\n| F\n    1 t\n| F\n    1 C4\n", "1 t", "1 s")]
    [InlineData("key C major\n| C\n    1 3@5\n| %\n    1 4@5\n", "C major", "Db major")]
    [InlineData("| C\n    1 4@5\n| %\n    1 4@5\n", "| C", "| Ab")]
    [InlineData("| C\n    1 C4\n\n\n| F\n    1 nothing  2 again\n", "\n\n\n", "\n")]
    public void What_leans_on_an_edit_follows_it(string text, string old, string now)
    {
        var (cache, memory) = (new LineCache(), new BindingMemory());
        var tree = SyntaxTree.Parse(SourceText.From(text), cache);
        Binder.Bind(tree, memory: memory);
        tree = tree.With(new(new(text.IndexOf(old, StringComparison.Ordinal), old.Length), now), out _, cache);
        Assert.Null(SameValues.Differ(Binder.Bind(tree), Binder.Bind(tree, memory: memory), typeof(SyntaxTree)));
    }

    [Fact]
    public void Rows_that_an_edit_does_not_reach_are_the_very_same()
    {
        var cache = new LineCache();
        var memory = new BindingMemory();
        var tree = SyntaxTree.Parse(SourceText.From(string.Concat(Enumerable.Range(0, 30).Select(i => $"| C\n    1 C4  2 E4  3 G4\n"))), cache);
        var before = Binder.Bind(tree, memory: memory);
        tree = tree.With(new(new(tree.Source.Lines[41].Start + 6, 2), "D4"), out _, cache);
        var after = Binder.Bind(tree, memory: memory);
        Assert.Equal([20], Enumerable.Range(0, 30).Where(i => !ReferenceEquals(before.Bars[i].Rows[0], after.Bars[i].Rows[0])));
    }

    private sealed class Beside(string folder) : ILibrary
    {
        public UsedFile Open(string path, string? usedBy) => Path.Combine(folder, path) is var full && File.Exists(full)
            ? new(path, SyntaxTree.Parse(SourceText.From(File.ReadAllText(full))), null) : new(path, null, "There is no such file.");
    }
}

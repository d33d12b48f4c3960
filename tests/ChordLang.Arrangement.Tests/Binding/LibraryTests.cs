// Shapes of the piece and of the files it uses.
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Tests.Binding;

public class LibraryTests
{
    private sealed class Shelf(params (string Path, string Text)[] files) : ILibrary
    {
        public UsedFile Open(string path, string? usedBy)
        {
            var text = files.FirstOrDefault(f => f.Path == path).Text;
            return text is null ? new(path, null, "There is no such file.") : new(path, SyntaxTree.Parse(text), null);
        }
    }

    [Fact]
    public void Files_may_use_each_other_in_a_circle()
    {
        var shelf = new Shelf(("one.chl", "use \"two.chl\"\nshape first = 3-x-4-4-3-x\n"), ("two.chl", "use \"one.chl\"\nshape second = x-3-5-4-5-x\nshape first = x-x-1-1-1-1\n"));
        var piece = Dump.ShouldBindAsMarked("use \"one.chl\"\n| C\n    1 first+1  2 second\n", shelf);
        Assert.Equal("4-x-5-5-4-x", piece.Events[0].Voicing!.ToString());
        Assert.Equal("two.chl", piece.Shapes["second"].Path);
    }

    [Fact]
    public void A_file_that_cannot_be_had_is_told_once() => Dump.ShouldBindAsMarked("""
        use "none.chl"
            ^^^^^^^^^^ text-use-refused: There is no such file.
        | C
            1 from-there
        """, new Shelf());

    [Fact]
    public void A_refusal_further_in_names_the_file() => Dump.ShouldBindAsMarked("""
        use "one.chl"
            ^^^^^^^^^ text-use-refused: one.chl uses none.chl
        | C
        """, new Shelf(("one.chl", "use \"none.chl\"")));

    [Fact]
    public void A_chain_that_is_too_long_is_told()
    {
        var chain = Enumerable.Range(1, 20).Select(i => ($"{i}.chl", $"use \"{i + 1}.chl\"\nshape shape{i} = 3-x-4-4-3-x\n")).ToArray();
        Assert.Equal(TroubleCodes.UseRefused, Assert.Single(Dump.Bind("use \"1.chl\"\n", new Shelf(chain)).Troubles).Code);
    }

    [Fact]
    public void Doubled_and_unused_shapes_are_told() => Dump.ShouldBindAsMarked("""
        shape one = 3-x-4-4-3-x
        shape two = 3-x-4-4-3-x
              ^^^ text-unused-shape
        shape one = x-3-5-4-5-x
              ^^^ text-doubled-shape: line 1
        | C
            1 one
        """);

    [Fact]
    public void A_library_of_shapes_uses_none_of_them() => Dump.ShouldBindAsMarked("shape one = 3-x-4-4-3-x\n");

    [Fact]
    public void An_expectation_uses_shapes_too() => Dump.ShouldBindAsMarked("""
        shape low-drop = 3-x-4-4-3-x
        expect only shapes low-drop high-drp
                                    ^^^^^^^^ text-unknown-shape
        | C
        """);
}

// Names, by short texts with a cursor: where they stand, and what another name would change.
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Lessons;
using ChordLang.Features.Names;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Features.Tests;

public sealed class NameTests
{
    private const string Text = "shape low-drop = 1-x-1-1-1-x\nexpect only shapes low-drop\nsection Bridge part\n| Cm7\n    top: 1 low-drop at 8  3 low-drop-1\n    low: 1 C3 = low-drop+2\nsection Bridge part again\n| Fm7\n    top: 1 low-drop\n";

    [Theory]
    [InlineData("low-drop =", 0, NameKind.Shape, "low-drop", 6)]
    [InlineData("low-drop-1", 3, NameKind.Shape, "low-drop", 6)]
    [InlineData("Bridge part\n|", 8, NameKind.Section, "Bridge part", 2)]
    [InlineData("Bridge part again", 0, NameKind.Section, "Bridge part", 2)]
    [InlineData("top: 1 low-drop at", 1, NameKind.Voice, "top", 2)]
    public void A_name_is_found_with_all_its_places(string at, int further, NameKind kind, string name, int places)
    {
        var lesson = new Lesson(SyntaxTree.Parse(Text));
        var found = NameAt.Of(lesson, Text.IndexOf(at, StringComparison.Ordinal) + further)!;
        Assert.Equal((kind, name), (found.Kind, found.Name));
        var all = NamePlaces.Of(lesson, kind, name).ToList();
        Assert.Equal(places, all.Count);
        Assert.All(all, p => Assert.Equal(name, lesson.Text[p.Span]));
        Assert.Single(all, p => p.Defines);
    }

    [Theory]
    [InlineData("1 low", 0)]
    [InlineData("Cm7", 1)]
    [InlineData("section", 2)]
    public void Where_no_name_stands_nothing_is_renamed(string at, int further) =>
        Assert.Null(Renaming.At(new(SyntaxTree.Parse(Text)), Text.IndexOf(at, StringComparison.Ordinal) + further));

    [Theory]
    [InlineData("low-drop =", "high-drop", null)]
    [InlineData("low-drop =", "Eb4", "A shape's name begins with a letter")]
    [InlineData("low-drop =", "two words", "A shape's name")]
    [InlineData("Bridge", "Middle part", null)]
    [InlineData("Bridge", "A again", "A section's name")]
    [InlineData("top:", "middle", null)]
    [InlineData("top:", "low", "There is a voice low already.")]
    [InlineData("top:", "key", "A voice's label")]
    [InlineData("top:", "", "A name cannot be empty.")]
    public void A_new_name_must_be_read_as_the_old_one_was(string at, string name, string? obstacle)
    {
        var lesson = new Lesson(SyntaxTree.Parse(Text));
        var old = NameAt.Of(lesson, Text.IndexOf(at, StringComparison.Ordinal))!;
        var found = Renaming.Obstacle(lesson, old, name);
        if (obstacle is not null)
        {
            Assert.StartsWith(obstacle, found, StringComparison.Ordinal);
            return;
        }
        Assert.Null(found);
        var after = new Lesson(SyntaxTree.Parse(lesson.Text.With(Renaming.Edits(lesson, old.Kind, old.Name, name))));
        Assert.Equal(NamePlaces.Of(lesson, old.Kind, old.Name).Count(), NamePlaces.Of(after, old.Kind, name).Count());
        Assert.Empty(NamePlaces.Of(after, old.Kind, old.Name));
        Assert.Equal(lesson.Findings.Select(f => f.Code), after.Findings.Select(f => f.Code));
    }

    [Fact]
    public void A_shape_of_another_file_is_used_here_and_given_there()
    {
        var lesson = new Lesson(SyntaxTree.Parse("use \"grips.chl\"\n| Fm7\n    1 low-drop\n"), new Shelf());
        Assert.Equal("low-drop", NameAt.Of(lesson, lesson.Text.Text.IndexOf("low", StringComparison.Ordinal))!.Name);
        Assert.Null(NamePlaces.Definition(lesson, NameKind.Shape, "low-drop"));
        Assert.Equal((NameKind.File, "grips.chl"), (NameAt.Of(lesson, 6)!.Kind, NameAt.Of(lesson, 6)!.Name));
    }

    private sealed class Shelf : ILibrary
    {
        public UsedFile Open(string path, string? usedBy) => new(path, SyntaxTree.Parse("shape low-drop = 1-x-1-1-1-x\n"), null);
    }
}

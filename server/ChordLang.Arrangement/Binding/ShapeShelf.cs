// The shapes that a piece can use: its own, and those of the files it uses.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>Gathers shapes and finds them by name.</summary>
internal sealed class ShapeShelf
{
    /// <summary>How far <c>use</c> may lead from file to file.</summary>
    private const int Depth = 8;

    /// <summary>How many files one piece may use, all told.</summary>
    private const int Files = 64;

    private readonly Dictionary<string, Shape> shapes = new(StringComparer.Ordinal);
    private readonly HashSet<string> used = new(StringComparer.Ordinal);
    private readonly HashSet<string> unreadable = new(StringComparer.Ordinal);
    private readonly SyntaxTree tree;
    private readonly TroubleList troubles;
    private bool incomplete;
    private HashSet<string>? asked;

    private ShapeShelf(SyntaxTree tree, TroubleList troubles) => (this.tree, this.troubles) = (tree, troubles);

    /// <summary>All shapes by name.</summary>
    public IReadOnlyDictionary<string, Shape> Shapes => shapes;

    /// <summary>Gathers the shapes of a tree and of the files it uses.</summary>
    public static ShapeShelf Gather(SyntaxTree tree, ILibrary? library, TroubleList troubles)
    {
        var shelf = new ShapeShelf(tree, troubles);
        shelf.Own();
        shelf.Use(library);
        return shelf;
    }

    /// <summary>Finds a shape and the frets it is moved by; where there is none, tells so and answers null.</summary>
    public (Shape Shape, int Shift)? Find(ShapeSound sound, int line)
    {
        var (name, shift) = (sound.Name, sound.Shift);
        if (!shapes.ContainsKey(name) && name.LastIndexOf('-') is var dash && dash > 0 && name.Length - dash is 2 or 3
            && int.TryParse(name.AsSpan(dash + 1), out var down) && shapes.ContainsKey(name[..dash]))
            (name, shift) = (name[..dash], shift - down);
        used.Add(name);
        asked?.Add(name);
        if (shapes.TryGetValue(name, out var shape))
            return (shape, shift);
        Unknown(sound.Name, sound.NameSpan, line);
        return null;
    }

    /// <summary>The names that some work asks for.</summary>
    public ImmutableArray<string> Asked(Action work)
    {
        asked = new(StringComparer.Ordinal);
        work();
        ImmutableArray<string> names = [.. asked];
        asked = null;
        return names;
    }

    /// <summary>Says that names are used, by a row that was bound before.</summary>
    public void Use(ImmutableArray<string> names)
    {
        foreach (var name in names)
            used.Add(name);
    }

    /// <summary>True where both answer alike whatever is asked, and their shapes stand in the same places.</summary>
    public bool SameAs(ShapeShelf other) => incomplete == other.incomplete && shapes.Count == other.shapes.Count && unreadable.SetEquals(other.unreadable)
        && shapes.All(s => other.shapes.TryGetValue(s.Key, out var there) && Same(s.Value, there)) && shapes.Keys.SequenceEqual(other.shapes.Keys);

    /// <summary>Takes the very shapes of a shelf that is the same, so that rows which were bound with them speak of these.</summary>
    public void Adopt(ShapeShelf other)
    {
        foreach (var name in other.shapes.Keys)
            shapes[name] = other.shapes[name];
    }

    private static bool Same(Shape a, Shape b) => a.Name == b.Name && a.Path == b.Path && a.Line == b.Line && a.Span == b.Span && a.Slots.SequenceEqual(b.Slots)
        && (a.Fingers is { } one ? b.Fingers is { } two && one.SequenceEqual(two) : b.Fingers is null);

    /// <summary>Says that a name, written in an expectation, is used.</summary>
    public void Mention(string name, Span span, int line)
    {
        used.Add(name);
        if (!shapes.ContainsKey(name))
            Unknown(name, span, line);
    }

    /// <summary>Tells which of the tree's own shapes nothing used.</summary>
    public void TellUnused()
    {
        foreach (var shape in shapes.Values.Where(s => s.Path is null && !used.Contains(s.Name) && !IsBadlyNamed(s)))
            troubles.Add(new Trouble(TroubleCodes.UnusedShape, shape.Span, $"Nothing in this piece uses the shape {shape.Name}. Use it, or take its line out.")
            {
                Fixes = [new("Take the shape out", true, [new(WholeLine(shape.Line), "")])],
            });
    }

    // A row cannot call for it, whatever it says: its name is told already.
    private bool IsBadlyNamed(Shape shape) => tree.Lines[shape.Line].Findings.Any(f => f.Code == SyntaxCodes.ShapeName);

    private void Unknown(string name, Span span, int line)
    {
        // Where a file could not be opened, or a shape's line not be read, the name is probably there: that is told already.
        if (incomplete || unreadable.Contains(name))
            return;
        var nearest = Vocabulary.Nearest(name, shapes.Keys);
        troubles.Add(line, TroubleCodes.UnknownShape, span, $"There is no shape {name}. " + (nearest is not null ? $"Did you mean {nearest}?"
            : shapes.Count == 0 ? $"Define it with a line of its own, such as shape {name} = x-3-2-4-3-x, or use a file that holds it." : "Define it with a line of its own, or use a file that holds it."),
            nearest is null ? [] : [TroubleList.Replace($"Write {nearest}", span, nearest)]);
    }

    private void Own()
    {
        foreach (var i in tree.Heads)
        {
            if (tree.Lines[i] is not ShapeLine line || line.Called is var name && name.Length == 0)
                continue;
            if (ShapeOf(line, i, null, tree) is not { } shape)
                unreadable.Add(name);
            else if (shapes.TryGetValue(shape.Name, out var before))
                troubles.Add(new Trouble(TroubleCodes.DoubledShape, shape.Span, $"There is a shape {shape.Name} already, in line {before.Line + 1}; that one holds. Give this one another name, or take it out.")
                {
                    Related = [new("The first shape of this name", before.Span, null)],
                });
            else
                shapes.Add(shape.Name, shape);
            if (line is { Slots: { } slots, Fingers: { } fingers } && fingers.Fingers.Length != slots.Slots.Length)
                troubles.Add(i, TroubleCodes.Fingers, fingers.Span, $"The shape has {slots.Slots.Length} strings, but {fingers.Fingers.Length} fingers are written. Write one a string, lowest first, x where no finger is.");
        }
    }

    private void Use(ILibrary? library)
    {
        var open = new Queue<(UseLine Use, int Line, SyntaxTree Tree, string? Path, int Depth, int Origin)>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var i in tree.Heads)
            if (tree.Lines[i] is UseLine line)
                open.Enqueue((line, i, tree, null, 1, i));
        // A file that uses the same ones over and over must not be opened over and over.
        for (var opened = 0; opened < 4 * Files && open.TryDequeue(out var next); opened++)
        {
            var file = library?.Open(next.Use.Path, next.Path) ?? new(next.Use.Path, null, "No library folder is known here, so other files cannot be opened.");
            var refusal = file.Tree is null ? file.Refusal ?? "The file cannot be opened." : null;
            if (refusal is null && !seen.Add(file.Path))
                continue;
            refusal ??= next.Depth > Depth ? $"Files use each other more than {Depth} deep. Use the file that holds the shapes directly."
                : seen.Count > Files ? $"More than {Files} files are used. Gather the shapes in fewer files." : null;
            if (refusal is not null)
            {
                incomplete = true;
                var (origin, at) = ((UseLine)tree.Lines[next.Origin], next.Path is null ? "" : $"{next.Path} uses {next.Use.Path}. ");
                troubles.Add(next.Origin, TroubleCodes.UseRefused, origin.Quote, at + refusal);
                continue;
            }
            for (var i = 0; i < file.Tree!.Lines.Length; i++)
                if (file.Tree.Lines[i] is ShapeLine shape && ShapeOf(shape, i, file.Path, file.Tree) is { } found)
                    shapes.TryAdd(found.Name, found);
                else if (file.Tree.Lines[i] is UseLine deeper)
                    open.Enqueue((deeper, i, file.Tree, file.Path, next.Depth + 1, next.Origin));
        }
    }

    private static Shape? ShapeOf(ShapeLine line, int number, string? path, SyntaxTree tree) =>
        line.Slots is not { } slots || line.Name.Length == 0 ? null : new(line.Called, [.. slots.Slots.Select(s => s.Fret)],
            line.Fingers is { } f && f.Fingers.Length == slots.Slots.Length ? f.Fingers : null, path, number, tree.Absolute(number, line.Name));

    private Span WholeLine(int line)
    {
        var text = tree.Source.Lines[line];
        return new(text.Start, text.Length + text.EndLength);
    }
}

// `chordlang diff`: two versions of a lesson compared in musical terms.
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Features.Comparing;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record ChangeJson(int? Bar, string? Section, string Kind, string Text);
internal sealed record DiffJson(int Version, string Summary, IReadOnlyList<ChangeJson> Changes);

/// <inheritdoc/>
internal sealed class DiffCommand : Command
{
    public override string Name => "diff";

    public override string Takes => "OLD NEW";

    public override string Summary => "Tells the difference of two versions in musical terms, bar by bar";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--path", "PATH", "the lesson that both are versions of, where they lie elsewhere: its settings and shapes hold"),
        new("--summary", null, "print one line only, fit for the message of a commit"),
    ];

    /// <summary>0: the same music. 1: another. 2: misuse, or a file that cannot be read.</summary>
    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words is not [var old, var now] || old == "-" && now == "-")
            throw new MisuseException("diff takes two files, the old version and the new; one of them may be - for standard input.");
        var sources = new[] { old, now }.Select(p => p == "-" ? Sources.Find([p], terminal.In, null).First()() : Sources.Read(p)).ToList();
        foreach (var source in sources.Where(s => s.Text is null))
            terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
        if (sources.Any(s => s.Text is null))
            return Trouble;
        var path = arguments["--path"] is { } given ? Path.GetFullPath(given) : null;
        var pieces = sources.Select(s => Binder.Bind(SyntaxTree.Parse(s.Text!), new Library(path ?? s.FullPath))).ToList();
        var comparison = PieceComparison.Of(pieces[0], pieces[1]);
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(
                new DiffJson(1, comparison.Summary, [.. comparison.Changes.Select(c => new ChangeJson(c.Bar, c.Section, c.Word, c.Text))]), Json.Plain.DiffJson));
        else if (arguments.Has("--summary"))
            terminal.Out.WriteLine(Terminal.Harmless(comparison.Summary));
        else
            foreach (var sentence in comparison.Sentences)
                terminal.Out.WriteLine(Terminal.Harmless(sentence));
        return comparison.SameMusic ? Clean : Found;
    }
}

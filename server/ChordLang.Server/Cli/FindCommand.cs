// `chordlang find`: which lessons of a library hold a chord, a shape, a role, a progression, a key or a tag.
using System.Text.Json;
using ChordLang.Features.Lessons;
using ChordLang.Features.Search;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

internal sealed record MatchJson(string Path, int? Bar, string? Count, string Text);
internal sealed record FindJson(int Version, IReadOnlyList<MatchJson> Matches);

/// <inheritdoc/>
internal sealed class FindCommand : Command
{
    public override string Name => "find";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Says which lessons hold a chord, a shape, a role, a progression, a key or a tag, and where";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--chord", "CHORD", "a chord however it is written: Cm7; without root, m7b5, on any"),
        new("--shape", "FRETS", "a grip at any place of the neck: x-3-5-4-5-x; or a shape's name"),
        new("--role", "ROLE", "what a chord does: related-two, tritone-substitute …"),
        new("--progression", "DEGREES", "numerals in any key: 'ii V I'"),
        new("--tag", "TAG", "a tag of the lesson"),
        new("--key", "KEY", "a key, written or found: 'G major'"),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("find needs a file, a folder, or - for standard input.");
        var wanted = Wanted.Read(new(arguments["--chord"], arguments["--shape"], arguments["--role"], arguments["--progression"], arguments["--tag"], arguments["--key"]), out var trouble)
            ?? throw new MisuseException(Terminal.Harmless(trouble!));
        if (wanted.Empty)
            throw new MisuseException("find needs to know what to look for: --chord, --shape, --role, --progression, --key or --tag. Of several, all must hold at one place.");
        var code = Clean;
        var matches = new List<SearchMatch>();
        var read = 0;
        foreach (var (source, found) in InOrder.Of(Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList(), f => Search(f(), wanted)))
            if (found is null)
            {
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                code = Trouble;
            }
            else
            {
                read++;
                matches.AddRange(found);
            }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new FindJson(1, [.. matches.Select(m => new MatchJson(m.Path, m.Bar, m.Count, m.Text))]), Json.Plain.FindJson));
        else
            Write(matches, read, terminal);
        return code;
    }

    private static (Source, IReadOnlyList<SearchMatch>?) Search(Source source, Wanted wanted) => source.Text is not { } text ? (source, null)
        : (source, [.. LibrarySearch.In(LessonContents.Of(source.Path, new Lesson(SyntaxTree.Parse(text), new Library(source.FullPath))), wanted)]);

    private static void Write(List<SearchMatch> matches, int read, Terminal terminal)
    {
        foreach (var m in matches)
            terminal.Out.WriteLine(Terminal.Harmless($"{m.Path}{m.Bar switch { null => "", 0 => $", pickup, count {m.Count}", var bar => $", bar {bar}, count {m.Count}" }}: {m.Text}"));
        var lessons = matches.Select(m => m.Path).Distinct().Count();
        terminal.Out.WriteLine(matches.Count == 0 ? $"Nothing found in {(read == 1 ? "one lesson" : $"{read} lessons")}."
            : $"{(matches.Count == 1 ? "One place" : $"{matches.Count} places")} in {lessons} of {read} lesson{(read == 1 ? "" : "s")}.");
    }
}

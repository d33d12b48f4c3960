// `chordlang transpose`: a piece in another key, and what could not come along.
using System.Globalization;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Features.Actions;
using ChordLang.Grammar.Syntax;
using ChordLang.Server.Workspace;
using ChordLang.Theory.Keys;
using ChordLang.Theory.Pitches;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class TransposeCommand : Command
{
    private const int Farthest = 24;

    public override string Name => "transpose";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Moves arrangements to another key: shapes along the neck where they can, and a finding where they cannot";

    public override IReadOnlyList<Option> Options { get; } =
    [
        Format,
        new("--to", "KEY", "the new key, such as 'F# minor'; the shorter way there"),
        new("--by", "N", "so many semitones up, or with a minus sign down"),
        new("--write", null, "write the result into the files"),
        new("--fail-on", "LEVEL", "the least grave finding that makes the exit code 1 (default: warning)", ["error", "warning", "information", "hint"]),
        new("--stdin-path", "PATH", "the path that standard input stands for"),
    ];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("transpose needs a file, a folder, or - for standard input.");
        var way = Way(arguments);
        var level = Enum.Parse<Severity>(arguments["--fail-on"] ?? "warning", true);
        var files = Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]).ToList();
        var write = arguments.Has("--write");
        if (files.Count != 1 && !write && !arguments.Json)
            throw new MisuseException($"{files.Count} files cannot go to standard output together. Name one of them, or let --write put each into its file.");
        var all = files.Select(f => Guarded(f(), way, write)).ToList();
        var beside = write ? terminal : terminal with { Out = terminal.Error, Colour = false };
        foreach (var file in all)
        {
            if (file.Source.Text is null)
                terminal.Error.WriteLine($"chordlang: {Unreadable(file.Source, file.Failed ? "transposed" : "read")}");
            else if (!arguments.Json && !write)
                terminal.Out.Write(file.Source.Text.Text);
            if (!arguments.Json)
                TextReport.Write(file, beside);
        }
        if (arguments.Json)
            JsonReport.Write(all, terminal);
        return all.Any(f => f.Source.Text is null) ? Trouble : all.Any(f => f.Findings.Any(x => x.Severity <= level)) ? Found : Clean;
    }

    // From a piece to its interval; where there is none, an IOException says why, in words that end no sentence.
    private static Func<Piece, Interval> Way(Arguments arguments)
    {
        if (arguments["--to"] is null == arguments["--by"] is null)
            throw new MisuseException("transpose needs either --to KEY, such as --to 'F# minor', or --by N, such as --by -2.");
        if (arguments["--to"] is { } to)
            return Key.TryParse(to, out var key) ? piece => NewKey.To(piece, key, out var why) ?? throw new IOException(why)
                : throw new MisuseException($"--to '{Terminal.Harmless(to)}' cannot be read: it wants a tonic and a mode, such as 'F# minor'.");
        if (!int.TryParse(arguments["--by"], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var by) || Math.Abs(by) > Farthest)
            throw new MisuseException($"--by '{Terminal.Harmless(arguments["--by"]!)}' cannot be read: it wants semitones from -{Farthest} to {Farthest}, such as 3 or -2.");
        return piece => NewKey.By(piece, by);
    }

    private static CheckedFile Guarded(Source source, Func<Piece, Interval> way, bool write)
    {
        if (source.Text is not { } text)
            return new(source, [], 0);
        try
        {
            var library = new Library(source.FullPath);
            var piece = Binder.Bind(SyntaxTree.Parse(text), library);
            var moved = Transposition.Of(piece, way(piece), library);
            if (write && source.FullPath is { } path)
                Replacement.Write(path, moved.Text.ToBytes());
            return new(source with { Text = moved.Text }, library.Configuration.Apply(TransposedFindings.Of(moved)), 0);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(source with { Text = null, Trouble = Reason(e) }, [], 0, true);
        }
    }
}

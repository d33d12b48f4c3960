// `chordlang analyse`: key, function and skeleton of a chart.
using System.Globalization;
using System.Text;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Charts;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Functions;
using ChordLang.Harmony.Keys;
using ChordLang.Harmony.Skeleton;
using ChordLang.Server.Workspace;
using ChordLang.Theory.Keys;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class AnalyseCommand : Command
{
    public override string Name => "analyse";

    public override string Takes => "FILE, FOLDER or - …";

    public override string Summary => "Says the key of a chart, what each chord does in it, and what remains without decoration";

    public override IReadOnlyList<Option> Options { get; } = [Format, new("--stdin-path", "PATH", "the path that standard input stands for")];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count == 0)
            throw new MisuseException("analyse needs a file, a folder, or - for standard input.");
        var (code, files) = (Clean, new List<AnalysedJson>());
        foreach (var read in Sources.Find(arguments.Words, terminal.In, arguments["--stdin-path"]))
        {
            var source = read();
            if (source.Text is not { } text)
            {
                terminal.Error.WriteLine($"chordlang: {Terminal.Harmless(source.Path)} cannot be read: {source.Trouble}.");
                code = Trouble;
                continue;
            }
            var written = WrittenChart.Of(Binder.Bind(SyntaxTree.Parse(text), new Library(source.FullPath)));
            var plan = KeyFinder.Find(written.Chart, written.Given);
            var (functions, skeleton) = (FunctionReader.Read(written.Chart, plan), SkeletonReader.Read(written.Chart, plan));
            files.Add(new(source.Path, plan.Home is { } home ? Key(home) : null,
                [.. plan.Spans.Select(s => new KeySpanJson(s.FromBar, Key(s.Key).Tonic, Key(s.Key).Mode, s.Given, Math.Round(s.Confidence, 3)))],
                [.. functions.Select((f, i) => new AnalysedChordJson(i, written.Chart.Chords[i].Bar, written.Places[i].Count, written.Places[i].Symbol, Key(f.Key),
                    f.Degree, f.Numeral, Kebab(f.Function), f.Roles, f.Target, skeleton.Heads[i], skeleton.Depths[i], f.Reason))],
                [.. skeleton.Levels.Select(l => new LevelJson(l.Level, l.Indices))]));
            if (!arguments.Json)
                Write(files[^1], terminal);
        }
        if (arguments.Json)
            terminal.Out.WriteLine(JsonSerializer.Serialize(new AnalyseJson(1, files), Json.Plain.AnalyseJson));
        return code;
    }

    private static KeyJson Key(Key key) => new(key.Tonic?.ToString(), key.Mode.ToString().ToLowerInvariant());

    private static string Kebab(HarmonicFunction function)
    {
        var word = new StringBuilder();
        foreach (var c in function.ToString())
            word.Append(char.IsUpper(c) && word.Length > 0 ? "-" : "").Append(char.ToLowerInvariant(c));
        return word.ToString();
    }

    private static void Write(AnalysedJson file, Terminal terminal)
    {
        if (file.Key is not { } key)
        {
            terminal.Out.WriteLine($"{Terminal.Harmless(file.Path)}: no chords are written.\n");
            return;
        }
        terminal.Out.WriteLine($"{Terminal.Harmless(file.Path)}: {key.Tonic} {key.Mode}.");
        foreach (var span in file.Keys)
            terminal.Out.WriteLine($"  {(span.FromBar == 0 ? "From the pickup" : $"From bar {span.FromBar}")}: {span.Tonic} {span.Mode}, "
                + (span.Given ? "as written." : string.Create(CultureInfo.InvariantCulture, $"found, {span.Confidence * 100:0} percent sure.")));
        foreach (var c in file.Chords)
            terminal.Out.WriteLine($"  {(c.Bar == 0 ? "pickup" : $"bar {c.Bar}")}, count {c.Count}: {Terminal.Harmless(c.Symbol)} is {c.Numeral}, {c.Function.Replace('-', ' ')}. {c.Reason}");
        foreach (var level in file.Skeleton.Where(l => l.Level > 0))
            terminal.Out.WriteLine($"  {(level.Level == 1 ? "Without decoration" : "Backbone")}: {Terminal.Harmless(string.Join(' ', level.Indices.Select(i => file.Chords[i].Symbol)))}");
        terminal.Out.WriteLine();
    }
}

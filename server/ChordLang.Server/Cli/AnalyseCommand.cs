// `chordlang analyse`: key, function and skeleton of a chart.
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using ChordLang.Arrangement.Binding;
using ChordLang.Checks.Charts;
using ChordLang.Features.Lessons;
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

    public override IReadOnlyList<Option> Options { get; } = [Format, new("--bar-by-bar", null, "walk through the bars in whole sentences, as a teacher would"), new("--stdin-path", "PATH", "the path that standard input stands for")];

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
                terminal.Error.WriteLine($"chordlang: {Unreadable(source)}");
                code = Trouble;
                continue;
            }
            var piece = Binder.Bind(SyntaxTree.Parse(text), new Library(source.FullPath));
            var written = WrittenChart.Of(piece);
            var plan = KeyFinder.Find(written.Chart, written.Given);
            var (functions, skeleton) = (FunctionReader.Read(written.Chart, plan), SkeletonReader.Read(written.Chart, plan));
            files.Add(new(source.Path, plan.Home is { } home ? Key(home) : null,
                [.. plan.Spans.Select(s => new KeySpanJson(s.FromBar, Key(s.Key).Tonic, Key(s.Key).Mode, s.Given, Math.Round(s.Confidence, 3)))],
                [.. functions.Select((f, i) => new AnalysedChordJson(i, written.Chart.Chords[i].Bar, written.Places[i].Count, written.Places[i].Symbol, Key(f.Key),
                    f.Degree, f.Numeral, Kebab(f.Function), f.Roles, f.Target, skeleton.Heads[i], skeleton.Depths[i], f.Reason))],
                [.. skeleton.Levels.Select(l => new LevelJson(l.Level, l.Indices))]));
            if (arguments.Has("--bar-by-bar") && !arguments.Json)
                Walk(source.Path, new Lesson(piece.Tree, new Library(source.FullPath)), terminal);
            else if (!arguments.Json)
                Write(files[^1], [.. functions.Select(f => f.Reasons)], ChartRows.Of(piece), terminal);
        }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(new AnalyseJson(1, files), Json.Plain.AnalyseJson));
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

    private static void Write(AnalysedJson file, ImmutableArray<ImmutableArray<RoleReason>> reasons, ChartRows rows, Terminal terminal)
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
        var all = file.Chords.Select(c => new ChartEntry(c.Bar, c.Count, Terminal.Harmless(c.Symbol), c.Numeral)).ToList();
        terminal.Out.Write($"\n  The chart:\n{rows.Write(all)}\n  What each chord does:\n");
        for (var i = 0; i < file.Chords.Count; i++)
            Chord(file, i, reasons[i], terminal);
        foreach (var level in file.Skeleton.Where(l => l.Level > 0))
            terminal.Out.Write($"\n  {(level.Level == 1 ? "Without passing and related-two chords" : "The backbone")}:\n{rows.Write([.. level.Indices.Select(i => Reduced(file, level, i, all))])}");
        terminal.Out.WriteLine();
    }

    private static void Walk(string path, Lesson lesson, Terminal terminal)
    {
        terminal.Out.WriteLine(Terminal.Harmless(lesson.Piece.Title ?? path) + "\n");
        foreach (var talk in BarByBar.Of(lesson))
        {
            var bar = lesson.Piece.Bars[talk.Bar];
            if (talk.Section is { } section)
                terminal.Out.WriteLine(Terminal.Harmless(section) + "\n");
            terminal.Out.WriteLine(Terminal.Harmless($"{(bar.Number == 0 ? "Pickup" : $"Bar {bar.Number}")}. {string.Join(' ', talk.Sentences)}") + "\n");
        }
    }

    // Within its bar, what is left takes the time of the chords that only prepared it: the dominant stands where its related two stood.
    private static ChartEntry Reduced(AnalysedJson file, LevelJson level, int index, List<ChartEntry> all)
    {
        var at = index;
        while (at > 0 && all[at - 1].Bar == all[index].Bar && !level.Indices.Contains(at - 1) && Prepares(file, at - 1, index))
            at--;
        return all[index] with { Count = all[at].Count };
    }

    private static bool Prepares(AnalysedJson file, int chord, int goal)
    {
        for (var k = chord; k >= 0 && k < goal; k = file.Chords[k].Head)
            if (file.Chords[k].Head == goal)
                return true;
        return false;
    }

    private static void Chord(AnalysedJson file, int index, ImmutableArray<RoleReason> reasons, Terminal terminal)
    {
        var c = file.Chords[index];
        terminal.Out.WriteLine(Terminal.Harmless($"    {(c.Bar == 0 ? "pickup" : $"bar {c.Bar}")}, count {c.Count}: {c.Symbol} is {c.Numeral}, {c.Function.Replace('-', ' ')}.{(reasons.IsEmpty ? $" {c.Reason}" : "")}"));
        foreach (var role in reasons)
            terminal.Out.WriteLine(Terminal.Harmless($"      {role.Name}{(role.Target is { } t ? $", to {file.Chords[t].Symbol} in bar {file.Chords[t].Bar}" : "")}: {role.Sentence}"));
    }
}

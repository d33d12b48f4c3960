// `chordlang check --watch`: what to say when files change, whoever tells that they did.
using ChordLang.Checks.Catalogue;

namespace ChordLang.Server.Cli;

/// <summary>Checks round after round and prints what is new.</summary>
/// <param name="check">Checks every file.</param>
/// <param name="terminal">Where it speaks.</param>
internal sealed class CheckWatch(Func<IEnumerable<CheckedFile>> check, Terminal terminal)
{
    private Dictionary<string, CheckedFile> known = new(StringComparer.Ordinal);

    /// <summary>Checks at once and then for each change; answers what the last round found.</summary>
    public IReadOnlyList<CheckedFile> Run(IEnumerable<int> changes)
    {
        var last = Round(true);
        foreach (var _ in changes)
            last = Round(false);
        return last;
    }

    // A file is printed where its text or its findings are others than before: a shape in another file may have changed.
    private List<CheckedFile> Round(bool first)
    {
        var all = check().ToList();
        var changed = all.Where(f => !known.TryGetValue(f.Source.Path, out var old) || !Same(old, f)).ToList();
        var gone = known.Keys.Except(all.Select(f => f.Source.Path)).Any();
        known = all.ToDictionary(f => f.Source.Path, StringComparer.Ordinal);
        if (!first && changed.Count == 0 && !gone)
            return all;
        foreach (var file in changed)
        {
            CheckCommand.Unread(file, terminal);
            TextReport.Write(file, terminal);
        }
        ConfigCommand.Tell(changed.SelectMany(f => f.Configured), terminal);
        TextReport.Summary(all, terminal);
        terminal.Out.Flush();
        return all;
    }

    private static bool Same(CheckedFile old, CheckedFile now) => old.Source.Text?.Text == now.Source.Text?.Text && old.Source.Trouble == now.Source.Trouble
        && Shown(old).SequenceEqual(Shown(now)) && old.Configured.SequenceEqual(now.Configured);

    private static IEnumerable<(string, Severity, string, int)> Shown(CheckedFile file) => file.Findings.Select(f => (f.Code, f.Severity, f.Message, f.Span.Start));
}

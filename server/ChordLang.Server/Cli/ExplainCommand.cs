// `chordlang explain`: the page of a check, offline.
using System.Text.Json;
using ChordLang.Checks.Catalogue;

namespace ChordLang.Server.Cli;

/// <inheritdoc/>
internal sealed class ExplainCommand : Command
{
    public override string Name => "explain";

    public override string Takes => "[CHECK]";

    public override string Summary => "Shows the page of one check, or the list of all";

    public override IReadOnlyList<Option> Options { get; } = [Format];

    public override int Run(Arguments arguments, Terminal terminal)
    {
        if (arguments.Words.Count > 1)
            throw new MisuseException("explain takes the name of one check, such as count-twice, or nothing for the list.");
        var all = CheckCatalogue.All;
        var asked = arguments.Words.Count == 0 ? all : all.Where(c => c.Code == arguments.Words[0]);
        var list = asked.ToList();
        if (list.Count == 0)
        {
            var near = all.Select(c => c.Code).Where(c => c.Contains(arguments.Words[0], StringComparison.OrdinalIgnoreCase)).Take(4).ToList();
            throw new MisuseException($"there is no check '{Terminal.Harmless(arguments.Words[0])}'.{(near.Count > 0 ? $" Did you mean {string.Join(" or ", near)}?" : "")} 'chordlang explain' lists them.");
        }
        if (arguments.Json)
            terminal.Json(JsonSerializer.Serialize(
                new ExplainJson(1, [.. list.Select(c => new PageJson(c.Code, c.Severity.ToString().ToLowerInvariant(), c.Title, CheckCatalogue.Page(c.Code) ?? ""))]),
                Json.Plain.ExplainJson));
        else if (arguments.Words.Count == 1)
            terminal.Out.WriteLine(CheckCatalogue.Page(list[0].Code)?.TrimEnd());
        else
            foreach (var c in list)
                terminal.Out.WriteLine($"{c.Code,-30} {c.Severity.ToString().ToLowerInvariant(),-12} {c.Title}");
        return Clean;
    }
}

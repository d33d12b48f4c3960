// Somebody at an editor, by a script: opens lessons, types, asks, changes their mind, saves, and closes everything again.
using System.Globalization;
using System.Text;
using System.Text.Json;
using ChordLang.Testing;

namespace ChordLang.Benchmarks.Soaking;

/// <summary>What was done so far.</summary>
internal sealed record Deeds(int Keys, int Questions, int Withdrawn, int Openings, int FileEvents);

/// <summary>Types into the lessons of a shelf through one server.</summary>
/// <param name="peer">The server.</param>
/// <param name="shelf">The lessons.</param>
/// <param name="seed">Of the script.</param>
/// <param name="saves">False for one that never writes a file, for it may be killed while it does.</param>
internal sealed class Typist(Peer peer, Shelf shelf, int seed, bool saves)
{
    private const int OpenAtOnce = 6, Visits = 14, Storm = 40;

    private static readonly (string Method, string More)[] Asked =
    [
        ("textDocument/hover", "position"), ("textDocument/completion", "position"), ("textDocument/signatureHelp", "position"), ("textDocument/semanticTokens/full", ""),
        ("textDocument/documentSymbol", ""), ("textDocument/foldingRange", ""), ("textDocument/inlayHint", "range"), ("textDocument/codeAction", "actions"),
        ("textDocument/definition", "position"), ("textDocument/documentHighlight", "position"), ("textDocument/formatting", "options"), ("textDocument/codeLens", ""),
        ("textDocument/documentLink", ""), ("textDocument/diagnostic", ""), ("chordlang/unheard-of", ""),
    ];

    private static readonly string[] Suffixes = ["", "m7", "7", "maj7", "13(b9)", "m7b5", "dim7", "6/9", "7sus4", "7#11", "add9", "oops"];

    private readonly Dice dice = new(seed);
    private readonly Dictionary<string, Held> open = new(StringComparer.Ordinal);
    private Deeds deeds = new(0, 0, 0, 0, 0);
    private int turn;

    /// <summary>What was done so far.</summary>
    public Deeds Deeds => deeds;

    /// <summary>Says who it is, and which folder is open.</summary>
    public void Begin()
    {
        peer.Introduce(string.Create(CultureInfo.InvariantCulture, $$$"""
            {"processId":{{{Environment.ProcessId}}},"rootUri":{{{Quoted(Uri(shelf.Folder))}}},"capabilities":{"textDocument":{"publishDiagnostics":{"versionSupport":true},
            "documentSymbol":{"hierarchicalDocumentSymbolSupport":true},"codeAction":{"codeActionLiteralSupport":{"codeActionKind":{"valueSet":[]} } } },
            "workspace":{"applyEdit":true,"didChangeWatchedFiles":{"dynamicRegistration":true},"configuration":true}} }
            """));
        peer.Write(Peer.Notification("initialized", "{}"));
    }

    /// <summary>Some work of an evening, all undone at its end: what a server holds after it must be what it held before. Answers a trouble, or null.</summary>
    public string? Round()
    {
        turn++;
        var first = shelf.Lessons[turn % shelf.Lessons.Count];
        Open(first);
        var before = Findings(first);
        for (var visit = 0; visit < Visits; visit++)
        {
            while (open.Count < OpenAtOnce)
                Open(shelf.Lessons[dice.Next(shelf.Lessons.Count)]);
            var path = open.Keys.ElementAt(dice.Next(open.Count));
            Type(path);
            switch (dice.Next(6))
            {
                case 0:
                    Questions(path);
                    break;
                case 1:
                    Paste(path);
                    break;
                case 2 when saves:
                    OnDisk();
                    break;
                case 3:
                    Library(path);
                    break;
                default:
                    if (path != first)
                        Close(path);
                    break;
            }
        }
        var after = Findings(first);
        foreach (var path in open.Keys.ToList())
            Close(path);
        return after == before ? null : $"round {turn}: all was undone in {Path.GetFileName(first)}, but its findings are\n{after}\nand were\n{before}";
    }

    private void Open(string path)
    {
        if (open.ContainsKey(path))
            return;
        var text = File.ReadAllText(path);
        open[path] = new(text.Split('\n'));
        peer.Write(Peer.Notification("textDocument/didOpen", $"{{\"textDocument\":{{\"uri\":{Quoted(Uri(path))},\"languageId\":\"chordlang\",\"version\":1,\"text\":{Quoted(text)}}}}}"));
        deeds = deeds with { Openings = deeds.Openings + 1 };
    }

    private void Close(string path)
    {
        open.Remove(path);
        peer.Write(Peer.Notification("textDocument/didClose", $"{{\"textDocument\":{{\"uri\":{Quoted(Uri(path))}}}}}"));
    }

    // A phrase behind some line, key by key, with questions between; then it goes again, key by key or at once.
    private void Type(string path)
    {
        var held = open[path];
        var line = dice.Next(held.Lines.Length);
        var (at, column, phrase) = (line, held.Lines[line].Length, Phrase());
        foreach (var sign in phrase)
        {
            Change(path, at, column, at, column, sign.ToString());
            (at, column) = sign == '\n' ? (at + 1, 0) : (at, column + 1);
            deeds = deeds with { Keys = deeds.Keys + 1 };
            if (dice.Next(5) == 0)
                Ask(path, dice.Next(Asked.Length), at, column);
        }
        if (dice.Next(2) == 0)
        {
            Change(path, line, held.Lines[line].Length, at, column, "");
            return;
        }
        foreach (var rest in Enumerable.Range(0, phrase.Length).Reverse().Select(n => phrase[..n]))
        {
            var (toLine, toColumn) = After(line, held.Lines[line].Length, rest);
            Change(path, toLine, toColumn, at, column, "");
            (at, column) = (toLine, toColumn);
            deeds = deeds with { Keys = deeds.Keys + 1 };
        }
    }

    // Many questions in one breath, most of them taken back in the next.
    private void Questions(string path)
    {
        var line = dice.Next(open[path].Lines.Length);
        var asked = Enumerable.Range(0, Storm).Select(i => Request(path, i % Asked.Length, line, 2)).ToList();
        peer.Write([.. asked.Select(a => a.Body)]);
        peer.Write([.. asked.Where((_, i) => i % 8 != 7).Select(a => Peer.Notification("$/cancelRequest", string.Create(CultureInfo.InvariantCulture, $"{{\"id\":{a.Id}}}")))]);
        foreach (var (_, id) in asked)
            peer.Answer(id);
        deeds = deeds with { Questions = deeds.Questions + Storm, Withdrawn = deeds.Withdrawn + Storm - Storm / 8 };
    }

    // A whole other lesson in its place, as a client without increments sends it; then the old one.
    private void Paste(string path)
    {
        var held = open[path];
        foreach (var text in new[] { Shelf.Lesson(dice.Next(1000)), string.Join('\n', held.Lines) })
        {
            peer.Write(Peer.Notification("textDocument/didChange", string.Create(CultureInfo.InvariantCulture,
                $"{{\"textDocument\":{{\"uri\":{Quoted(Uri(path))},\"version\":{++held.Version}}},\"contentChanges\":[{{\"text\":{Quoted(text)}}}]}}")));
            Ask(path, dice.Next(Asked.Length), 0, 0);
        }
    }

    // Others write too: a shape changes, a lesson comes, is renamed and goes, settings change.
    private void OnDisk()
    {
        File.WriteAllText(shelf.Shapes, Shelf.SharedShapes(dice.Next(5)));
        var (come, renamed) = (Path.Combine(shelf.Folder, $"come-{dice.Next(1_000_000)}.chl"), Path.Combine(shelf.Folder, $"gone-{dice.Next(1_000_000)}.chl"));
        File.WriteAllText(come, Shelf.Lesson(dice.Next(1000)));
        Tell((shelf.Shapes, 2), (come, 1));
        File.Move(come, renamed, true);
        Tell((come, 3), (renamed, 1));
        File.Delete(renamed);
        File.WriteAllText(Path.Combine(shelf.Folder, "chordlang.json"), dice.Next(2) == 0 ? "{}" : "{ \"hand\": \"large\" }");
        Tell((renamed, 3), (Path.Combine(shelf.Folder, "chordlang.json"), 2));
        File.WriteAllText(Path.Combine(shelf.Folder, "chordlang.json"), "{}");
        File.WriteAllText(shelf.Shapes, Shelf.SharedShapes(1));
        Tell((Path.Combine(shelf.Folder, "chordlang.json"), 2), (shelf.Shapes, 2));
    }

    private void Library(string path)
    {
        peer.Ask("workspace/symbol", $"{{\"query\":\"corridor {dice.Next(100)}\"}}");
        peer.Ask("textDocument/references", $"{{{Named(path)},\"position\":{{\"line\":{open[path].Lines.Length - 2},\"character\":8}},\"context\":{{\"includeDeclaration\":true}}}}");
        peer.Ask("workspace/executeCommand", $"{{\"command\":\"chordlang.{(dice.Next(2) == 0 ? "practice" : "describe")}\",\"arguments\":[{{\"uri\":{Quoted(Uri(path))}}}]}}");
        if (open[path].Lines.Length < 100)
            peer.Ask("chordlang/sheet", $"{{{Named(path)}}}");
        deeds = deeds with { Questions = deeds.Questions + 4 };
    }

    private string Findings(string path) => peer.Ask("textDocument/diagnostic", $"{{{Named(path)}}}").Message["result"]?["items"]?.ToJsonString() ?? "none";

    private void Ask(string path, int which, int line, int column)
    {
        var (body, id) = Request(path, which, line, column);
        peer.Write(body);
        peer.Answer(id);
        deeds = deeds with { Questions = deeds.Questions + 1 };
    }

    private (byte[] Body, int Id) Request(string path, int which, int line, int column)
    {
        var (method, more) = Asked[which];
        var at = string.Create(CultureInfo.InvariantCulture, $"{{\"line\":{line},\"character\":{column}}}");
        return peer.Request(method, $"{{{Named(path)}" + more switch
        {
            "position" => $",\"position\":{at}}}",
            "range" => $",\"range\":{{\"start\":{{\"line\":0,\"character\":0}},\"end\":{at}}}}}",
            "actions" => $",\"range\":{{\"start\":{at},\"end\":{at}}},\"context\":{{\"diagnostics\":[]}}}}",
            "options" => ",\"options\":{\"tabSize\":4,\"insertSpaces\":true}}",
            _ => "}",
        });
    }

    private void Change(string path, int line, int column, int toLine, int toColumn, string text) => peer.Write(Peer.Notification("textDocument/didChange", string.Create(CultureInfo.InvariantCulture,
        $"{{\"textDocument\":{{\"uri\":{Quoted(Uri(path))},\"version\":{++open[path].Version}}},\"contentChanges\":[{{\"range\":{{\"start\":{{\"line\":{line},\"character\":{column}}},\"end\":{{\"line\":{toLine},\"character\":{toColumn}}}}},\"text\":{Quoted(text)}}}]}}")));

    private void Tell(params (string Path, int What)[] changes)
    {
        peer.Write(Peer.Notification("workspace/didChangeWatchedFiles", $"{{\"changes\":[{string.Join(',', changes.Select(c => string.Create(CultureInfo.InvariantCulture, $"{{\"uri\":{Quoted(Uri(c.Path))},\"type\":{c.What}}}")))}]}}"));
        deeds = deeds with { FileEvents = deeds.FileEvents + changes.Length };
    }

    // Never twice the same for long: what is kept by content must be let go too.
    private string Phrase()
    {
        var text = new StringBuilder("\n| ");
        text.Append("CDEFGAB"[dice.Next(7)]).Append(dice.Next(3) == 0 ? "b" : "").Append(Suffixes[dice.Next(Suffixes.Length)]);
        text.Append("\n    1");
        for (var i = 0; i < 6; i++)
            text.Append(i == 0 ? ' ' : '-').Append(dice.Next(4) == 0 ? "x" : dice.Next(16).ToString(CultureInfo.InvariantCulture));
        if (dice.Next(3) == 0)
            text.Append(CultureInfo.InvariantCulture, $"\n> Words {dice.Next(1_000_000)}");
        if (dice.Next(4) == 0)
            text.Append(CultureInfo.InvariantCulture, $"\nshape new-{dice.Next(1_000_000)} = x-3-5-4-5-x");
        return text.ToString();
    }

    private static (int Line, int Column) After(int line, int column, string text) =>
        text.LastIndexOf('\n') is var cut and >= 0 ? (line + text.Count(c => c == '\n'), text.Length - cut - 1) : (line, column + text.Length);

    private static string Named(string path) => $"\"textDocument\":{{\"uri\":{Quoted(Uri(path))}}}";

    private static string Uri(string path) => new Uri(path).AbsoluteUri;

    private static string Quoted(string text) => $"\"{JsonEncodedText.Encode(text)}\"";

    // A document as it was opened; typing always comes back to it.
    private sealed class Held(string[] lines)
    {
        public string[] Lines => lines;

        public int Version { get; set; } = 1;
    }
}

// Payloads of code actions and commands.
using System.Text.Json;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Tests.Lsp.Payloads;

internal static class ActionPayloads
{
    private const string Uri = "file:///lessons/a.chl";
    private static readonly ActionData Data = new(Uri, 3, 10, 12, "respell");
    private static readonly WorkspaceEdit Versioned = new(DocumentChanges: [new(new(Uri, 3), [BasicPayloads.Edit]), new(new(Uri), [BasicPayloads.Edit])]);
    private static readonly WorkspaceEdit Plain = new(new Dictionary<string, IReadOnlyList<TextEditItem>> { [Uri] = [BasicPayloads.Edit] });

    public static IEnumerable<Payload> All =>
    [
        Payload.Out<IReadOnlyList<CodeAction>>("lsp.CodeAction[]",
        [
            new("Write it", "quickfix", [BasicPayloads.Finding], true, Versioned),
            new("Write it", "refactor.rewrite", null, null, Plain),
            new("Write it", "source.fixAll", null, null, null, Data),
        ]),
        Payload.Out("lsp.ApplyWorkspaceEditParams", new ApplyWorkspaceEditParams("Transpose", Plain)),
        Payload.In("lsp.CodeAction", new CodeActionToResolve(Data)),
        Payload.In("lsp.ExecuteCommandParams", new ExecuteCommandParams("chordlang.transpose", [JsonDocument.Parse("{}").RootElement])),
        Payload.In("Own", new CommandArguments(Uri, BasicPayloads.Range, 2, "G major", true, "name-fret-slip")),
        Payload.In("Part<lsp.DocumentSymbolParams> & Own", new SheetParams(new(Uri), ["00ff"], true, true, true, 420)),
        Payload.Out("Own", new SheetAnswer(3, new("ff00", "", "<defs></defs>"), [new("00ff", "<p></p>", new(10, 20, "Bar 1", "<svg></svg>", ["Bar 1: C."], "<div></div>"))])),
        Payload.In("lsp.DocumentSymbolParams", new HeardParams(new(Uri))),
        Payload.Out("Own", new HeardAnswer(3, "{}", [new(4, "Practise bar 5")])),
        Payload.In("lsp.CodeActionParams", new CodeActionParams(new(Uri), BasicPayloads.Range, new(["quickfix"]))),
    ];
}

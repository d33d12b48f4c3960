// Payloads of names, outlines, structure, completion, colours, hints, lenses, progress and settings.
using System.Text.Json;
using ChordLang.Server.Lsp.Protocol;

namespace ChordLang.Server.Tests.Lsp.Payloads;

internal static class FeaturePayloads
{
    private const string Uri = "file:///lessons/a.chl";
    private static readonly TextRange Range = BasicPayloads.Range;
    private static readonly JsonElement Token = JsonDocument.Parse("\"t\"").RootElement;
    private static readonly JsonElement Anything = JsonDocument.Parse("{}").RootElement;
    private static readonly MarkupContent Words = new("plaintext", "Words");
    private static readonly CompletionItem Item = new("Dm7", new(Uri, 0, "Dm7", 2), 7, "00001", "Dm7", 1, BasicPayloads.Edit, "D F A C", Words);
    private static readonly CodeLens Lens = new(Range, new(Uri, "low-drop"), new("played twice here", "", [Anything]));

    public static IEnumerable<Payload> All =>
    [
        Payload.Out<DocumentSymbol[]>("lsp.DocumentSymbol[]", [new("Section A", "bars 1 to 2", 3, Range, Range, [new("Bar 1: C", null, 19, Range, Range, null)])]),
        Payload.Out<SymbolInformation[]>("lsp.SymbolInformation[]", [new("Section A", 3, new(Uri, Range), "A title"), new("Shape a", 23, new(Uri, Range), null)]),
        Payload.In("lsp.WorkspaceSymbolParams", new WorkspaceSymbolParams("a", Token)),
        Payload.Out<IReadOnlyList<FoldingRange>>("lsp.FoldingRange[]", [new(1, 4, "comment", null), new(1, 4, null, "section A: C")]),
        Payload.In("lsp.SelectionRangeParams", new SelectionRangeParams(new(Uri), [new(1, 2)])),
        Payload.Out<IReadOnlyList<SelectionRange>>("lsp.SelectionRange[]", [new(Range, new(Range, null))]),
        Payload.In("lsp.ReferenceParams", new ReferenceParams(new(Uri), new(1, 2), new(true), Token)),
        Payload.Out<IReadOnlyList<Location>>("lsp.Location[]", [new(Uri, Range)]),
        Payload.Out<IReadOnlyList<DocumentHighlight>>("lsp.DocumentHighlight[]", [new(Range, 3)]),
        Payload.In("lsp.RenameParams", new RenameParams(new(Uri), new(1, 2), "a", Token)),
        Payload.Out("lsp.PrepareRenameResult", new PrepareRenameResult(Range, "a")),
        Payload.Out("lsp.WorkspaceEdit", new WorkspaceEdit(DocumentChanges: [new(new(Uri), [BasicPayloads.Edit])])),
        Payload.Out<IReadOnlyList<DocumentLink>>("lsp.DocumentLink[]", [new(Range, Uri, "Open it")]),
        Payload.Out<IReadOnlyList<CodeLens>>("lsp.CodeLens[]", [Lens, new(Range, new(Uri, "a"))]),
        Payload.Out("lsp.CodeLens", Lens),

        Payload.Out("lsp.CompletionList", new CompletionList(true, [Item])),
        Payload.Out("lsp.CompletionItem", Item),
        Payload.Out("lsp.SignatureHelp", new SignatureHelp([new("key TONIC MODE", Words, [new(JsonDocument.Parse("[4,9]").RootElement, Words), new(Token, Words)])], 0, 0)),
        Payload.Out("lsp.SemanticTokens", new SemanticTokens([0, 0, 1, 3, 0], "7")),
        Payload.In("lsp.SemanticTokensDeltaParams", new SemanticTokensDeltaParams(new(Uri), "6")),
        Payload.Out("lsp.SemanticTokensDelta", new SemanticTokensDelta("7", [new(0, 5, [0, 0, 2, 3, 0])])),
        Payload.Out<IReadOnlyList<InlayHint>>("lsp.InlayHint[]", [new(new(1, 2), "3", false, true, Words)]),
        Payload.In("lsp.DocumentOnTypeFormattingParams", new OnTypeFormattingParams(new(Uri), new(1, 2), "\n")),

        Payload.Out("lsp.WorkDoneProgressCreateParams", new ProgressCreateParams("t")),
        Payload.Out("{ token: lsp.ProgressToken; value: lsp.WorkDoneProgressBegin }", new ProgressParams(Token, new("begin", "Reading", true, "1 of 2", 50))),
        Payload.Out("{ token: lsp.ProgressToken; value: lsp.WorkDoneProgressReport }", new ProgressParams(Token, new("report", Message: "1 of 2", Percentage: 50))),
        Payload.Out("{ token: lsp.ProgressToken; value: lsp.WorkDoneProgressEnd }", new ProgressParams(Token, new("end"))),
        Payload.In("lsp.WorkDoneProgressCancelParams", new ProgressCancelParams(Token)),
        Payload.Out("lsp.ConfigurationParams", new ConfigurationParams([new("chordlang")])),
        Payload.In("lsp.DidChangeConfigurationParams", new ConfigurationChangedParams(Anything)),
        Payload.In("lsp.DidChangeWorkspaceFoldersParams", new FoldersChangedParams(new([new(Uri, "a")], [new(Uri, "b")]))),
    ];
}

// Code actions: what can be done about a stretch, and the edits of those that the client chose.
using ChordLang.Features.Actions;
using ChordLang.Grammar.Text;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about actions.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ICodeActionMessages
{
    [JsonRpcMethod("textDocument/codeAction", UseSingleObjectParameterDeserialization = true)]
    IReadOnlyList<CodeAction>? CodeActions(CodeActionParams p, CancellationToken cancel);

    [JsonRpcMethod("codeAction/resolve", UseSingleObjectParameterDeserialization = true)]
    CodeAction Resolve(CodeActionToResolve p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class CodeActionHandler(Conversation c) : Handler, ICodeActionMessages
{
    private const int ContentModified = -32801;
    private const string FixKind = "quickfix", RewriteKind = "refactor.rewrite", ExtractKind = "refactor.extract", InlineKind = "refactor.inline", FixAllKind = "source.fixAll";
    private bool resolves;

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ICodeActionMessages>();

    public override void Offer(ServerCapabilities offered)
    {
        resolves = c.Client.Can("textDocument.codeAction.dataSupport") && c.Client.Words("textDocument.codeAction.resolveSupport.properties").Contains("edit");
        offered.CodeActionProvider = new([FixKind, RewriteKind, ExtractKind, InlineKind, FixAllKind], resolves ? true : null);
    }

    public IReadOnlyList<CodeAction>? CodeActions(CodeActionParams p, CancellationToken cancel) => c.On<IReadOnlyList<CodeAction>>(p.TextDocument, d =>
    {
        var (range, only) = (d.Positions.Span(p.Range), p.Context?.Only);
        var actions = new List<CodeAction>();
        // What is worked out at once must be worked out from the whole; what waits until it is chosen is offered from the bars around.
        var lesson = !resolves || only is { Count: > 0 } && only.All(o => Within(o, "source")) ? d.Lesson : d.Near(new(d.Text.LineAt(range.Start), d.Text.LineAt(range.End)));
        foreach (var action in ActionsAt.Of(lesson, range, () => d.FindingsNow).Where(a => only is not { Count: > 0 } || only.Any(o => Within(Kind(a.Kind), o))))
        {
            cancel.ThrowIfCancellationRequested();
            if (action.Costly && resolves)
                actions.Add(Whole(d, action) with { Data = new(d.Uri, d.Stamp, range.Start, range.End, action.Id) });
            else if (!action.Edits.IsEmpty)
                actions.Add(Whole(d, action) with { Edit = c.Answers.Edit(d, action.Edits) });
        }
        return actions;
    }, cancel);

    public CodeAction Resolve(CodeActionToResolve p, CancellationToken cancel) => c.On(new(p.Data.Uri), d =>
        d.Stamp == p.Data.Stamp && ActionsAt.Of(d.Lesson, Span.Between(p.Data.Start, p.Data.End)).FirstOrDefault(a => a.Id == p.Data.Id) is { } action
            ? Whole(d, action) with { Edit = c.Answers.Edit(d, action.Edits) } : null, cancel)
        ?? throw new LocalRpcException("The text has changed since; ask for the actions again.") { ErrorCode = ContentModified };

    private CodeAction Whole(Document d, LessonAction action) => new(action.Title, Kind(action.Kind),
        action.Finding is { } finding ? [c.Answers.Diagnostic(d, finding)] : null, action.Preferred ? true : null, null);

    private static string Kind(ActionKind kind) => kind switch
    {
        ActionKind.Fix => FixKind, ActionKind.Extract => ExtractKind, ActionKind.Inline => InlineKind, ActionKind.FixAll => FixAllKind, _ => RewriteKind,
    };

    // Kinds are trees: `refactor` asks for `refactor.rewrite` too.
    private static bool Within(string kind, string asked) => asked.Length == 0 || kind == asked || kind.StartsWith(asked + ".", StringComparison.Ordinal);
}

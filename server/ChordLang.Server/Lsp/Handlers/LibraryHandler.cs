// What surrounds the documents: the user's choices, the open folders, files that change, and work that is given up.
using System.Text.Json;
using ChordLang.Checks.Configuring;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The messages about choices and folders.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ILibraryMessages
{
    [JsonRpcMethod("workspace/didChangeConfiguration", UseSingleObjectParameterDeserialization = true)]
    void ConfigurationChanged(ConfigurationChangedParams p);

    [JsonRpcMethod("workspace/didChangeWorkspaceFolders", UseSingleObjectParameterDeserialization = true)]
    void FoldersChanged(FoldersChangedParams p);

    [JsonRpcMethod("window/workDoneProgress/cancel", UseSingleObjectParameterDeserialization = true)]
    void GiveUp(ProgressCancelParams p);
}

/// <inheritdoc/>
internal sealed class LibraryHandler(Conversation c) : Handler, ILibraryMessages
{
    private const string Section = "chordlang";

    // The settings that hold, as text: what a client repeats changes nothing.
    private string told = "{}";

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ILibraryMessages>();

    public override void Offer(ServerCapabilities offered) => offered.Workspace = new(new(true, true));

    public override void Ready()
    {
        foreach (var folder in c.Folders)
            c.Index.Add(folder);
        if (!c.Client.Can("workspace.configuration"))
            return;
        if (c.Client.Can("workspace.didChangeConfiguration.dynamicRegistration"))
            _ = c.Client.Register(new Registration("chordlang-settings", "workspace/didChangeConfiguration"));
        _ = Ask();
    }

    public override void Closed(string uri)
    {
        if (Documents.PathOf(uri) is { } path)
            c.Index.Renew([path]);
    }

    public override void FilesChanged(IReadOnlyList<string> paths) => c.Index.Renew(paths);

    public void ConfigurationChanged(ConfigurationChangedParams p)
    {
        if (c.Client.Can("workspace.configuration"))
            _ = Ask();
        else if (p.Settings is { ValueKind: JsonValueKind.Object } all)
            Choose(all.TryGetProperty(Section, out var ours) ? ours : all);
    }

    public void FoldersChanged(FoldersChangedParams p)
    {
        foreach (var folder in p.Event.Removed.Select(f => Documents.PathOf(f.Uri)).OfType<string>())
            c.Index.Remove(folder);
        foreach (var folder in p.Event.Added.Select(f => Documents.PathOf(f.Uri)).OfType<string>())
            c.Index.Add(folder);
    }

    public void GiveUp(ProgressCancelParams p) => c.Index.Cancel(p.Token);

    private async Task Ask()
    {
        if (await c.Client.Configuration(Section).ConfigureAwait(false) is { } settings)
            Choose(settings);
    }

    private void Choose(JsonElement settings)
    {
        var before = c.Choices;
        c.Choices = ChoiceReader.Read(settings, c.Initial);
        if (settings.ValueKind == JsonValueKind.Object && settings.GetRawText() is var text && text != told)
            c.Renewed(c.Documents.Configure(ConfigurationReader.ReadEditor(told = text)));
        if (before.Hints != c.Choices.Hints && c.Client.Can("workspace.inlayHint.refreshSupport"))
            _ = c.Client.Refresh("workspace/inlayHint/refresh");
        if (before.Lenses != c.Choices.Lenses && c.Client.Can("workspace.codeLens.refreshSupport"))
            _ = c.Client.Refresh("workspace/codeLens/refresh");
    }
}

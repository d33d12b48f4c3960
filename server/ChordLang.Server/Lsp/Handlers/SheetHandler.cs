// The sheet of a document while it is written: only lines that look otherwise than before are sent again.
using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using ChordLang.Arrangement.Placing;
using ChordLang.Interchange.Sheet;
using ChordLang.Server.Lsp.Protocol;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The message that asks for a sheet; one of our own, so a client asks only where it knows of it.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ISheetMessages
{
    [JsonRpcMethod("chordlang/sheet", UseSingleObjectParameterDeserialization = true)]
    SheetAnswer? Sheet(SheetParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed partial class SheetHandler(Conversation c) : Handler, ISheetMessages
{
    private static readonly SheetOptions Options = new();
    private readonly ConcurrentDictionary<string, PlacedPiece> placed = new(StringComparer.Ordinal);

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ISheetMessages>();

    public override void Closed(string uri) => placed.TryRemove(uri, out _);

    public SheetAnswer? Sheet(SheetParams p, CancellationToken cancel) => c.On(p.TextDocument, d =>
    {
        var piece = d.Lesson.Piece;
        var places = placed[d.Uri] = PlacedPiece.Of(piece, piece.Settings.Hand, before: placed.GetValueOrDefault(d.Uri));
        var known = (p.Known ?? []).ToHashSet(StringComparer.Ordinal);
        var systems = SheetWriter.Systems(piece, places, Options);
        return new SheetAnswer(d.Version, piece.Title ?? "Untitled", SheetPage.Style(Options), SheetPage.Definitions(systems.SelectMany(s => s.Glyphs)),
            [.. systems.Select(s => Line(s, SheetPage.Bars(piece, s.FirstBar, s.LastBar), known))]);
    }, cancel);

    // Places in the text count from where the line's text begins, or an edit would change every line below it.
    private static SheetLine Line(SheetSystem system, string name, HashSet<string> known)
    {
        var svg = Places().Replace(system.Svg, m => string.Create(CultureInfo.InvariantCulture, $"data-{m.Groups[1].Value}=\"{int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) - system.From}\""));
        var id = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [name, svg, .. system.Spoken]))).AsSpan(0, 10));
        return known.Contains(id) ? new(id, system.From, system.To, name) : new(id, system.From, system.To, name, svg, system.Spoken);
    }

    [GeneratedRegex("data-(from|to)=\"(\\d+)\"")]
    private static partial Regex Places();
}

// Commands that an editor can run: the same that the command line has, on what is open.
using System.Text.Json;
using ChordLang.Arrangement.Placing;
using ChordLang.Arrangement.Transposing;
using ChordLang.Checks.Catalogue;
using ChordLang.Checks.Hand;
using ChordLang.Checks.Practice;
using ChordLang.Features.Actions;
using ChordLang.Features.Practice;
using ChordLang.Grammar.Text;
using ChordLang.Interchange.MusicXml;
using ChordLang.Interchange.Spoken;
using ChordLang.Interchange.TabText;
using ChordLang.Server.Lsp.Protocol;
using ChordLang.Theory.Keys;
using PolyType;
using StreamJsonRpc;

namespace ChordLang.Server.Lsp.Handlers;

/// <summary>The message that runs a command.</summary>
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface ICommandMessages
{
    /// <summary>Runs a command; answers text to show, or null.</summary>
    [JsonRpcMethod("workspace/executeCommand", UseSingleObjectParameterDeserialization = true)]
    string? Execute(ExecuteCommandParams p, CancellationToken cancel);
}

/// <inheritdoc/>
internal sealed class CommandHandler(Conversation c) : Handler, ICommandMessages
{
    private const int InvalidParams = -32602, RequestFailed = -32803;
    private const string Transpose = "chordlang.transpose", Export = "chordlang.export", Describe = "chordlang.describe", Explain = "chordlang.explain", Practice = "chordlang.practice";
    private const int MostSpots = 5;

    public override RpcTargetMetadata Messages => RpcTargetMetadata.FromShape<ICommandMessages>();

    public override void Offer(ServerCapabilities offered) => offered.ExecuteCommandProvider = new([Transpose, Export, Describe, Explain, Practice]);

    public string? Execute(ExecuteCommandParams p, CancellationToken cancel)
    {
        var asked = p.Arguments is [{ ValueKind: JsonValueKind.Object } first, ..] ? first.Deserialize(ActionJson.Default.CommandArguments)! : new();
        return p.Command switch
        {
            Transpose => On(asked, d => Transposed(d, asked), cancel),
            Export => On(asked, d => Exported(d, asked), cancel),
            Practice => On(asked, d => string.Join('\n', PracticeLines.Of(PracticeSpots.Of(d.Lesson.Piece, d.Lesson.Library).Take(MostSpots).ToList())), cancel),
            Describe => On(asked, d => Described(d, asked), cancel),
            Explain => CheckCatalogue.Page(asked.Code ?? throw Wrong("explain needs the name of a check: {\"code\": \"name-fret-slip\"}.")) ?? throw Wrong($"No check is called '{asked.Code}'."),
            _ => throw Wrong($"There is no command '{p.Command}'."),
        };
    }

    private string? On(CommandArguments asked, Func<Document, string?> run, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        var uri = asked.Uri ?? throw Wrong("The command needs a document: {\"uri\": …}.");
        return run(c.Documents.Find(uri) ?? throw Wrong("The document is not open."));
    }

    // The whole piece, or the lines of a range. What was lost is told in the answer.
    private string? Transposed(Document d, CommandArguments asked)
    {
        if (!c.Client.Can("workspace.applyEdit"))
            throw new LocalRpcException("This editor does not let a server change text.") { ErrorCode = RequestFailed };
        var piece = d.Lesson.Piece;
        var interval = asked switch
        {
            { By: { } by and >= -48 and <= 48 } => NewKey.By(piece, by),
            { To: { } to } when Key.TryParse(to, out var key) => NewKey.To(piece, key, out var why) ?? throw Wrong($"This piece cannot be brought to {key}: {why}."),
            _ => throw Wrong("transpose needs {\"by\": semitones}, from -48 to 48, or {\"to\": \"Eb major\"}."),
        };
        if (asked.Range is { } range && d.Positions.Span(range) is var span)
        {
            Apply(d, Transposition.Edits(piece, interval, d.Text.LineAt(span.Start), d.Text.LineAt(span.End)));
            return null;
        }
        var moved = Transposition.Of(piece, interval, d.Lesson.Library);
        Apply(d, SafeFixes.Difference(d.Text, moved.Text));
        var losses = TransposedFindings.Losses(moved);
        return losses.IsEmpty ? null : string.Join('\n', losses.Select(l => $"{(l.Bar is { } bar ? $"Bar {bar}: " : "")}{l.Message} [{l.Code}]"));
    }

    private void Apply(Document d, IEnumerable<TextEdit> edits) => _ = c.Client.Apply(new("Transpose", c.Answers.Edit(d, edits)));

    private static string Exported(Document d, CommandArguments asked)
    {
        var placed = PlacedPiece.Of(d.Lesson.Piece, d.Lesson.Piece.Settings.Hand);
        return asked.To switch
        {
            "musicxml" => ScoreWriter.Write(d.Lesson.Piece, placed),
            "tab" => TabWriter.Write(d.Lesson.Piece, placed, TabWriter.UsualWidth),
            _ => throw Wrong("export needs {\"to\": \"musicxml\"} or {\"to\": \"tab\"}."),
        };
    }

    private static string Described(Document d, CommandArguments asked)
    {
        var placed = PlacedPiece.Of(d.Lesson.Piece, d.Lesson.Piece.Settings.Hand);
        var sentences = asked.Brief == true ? Describer.Brief(d.Lesson.Piece, placed) : Describer.Whole(d.Lesson.Piece, placed);
        return string.Join('\n', sentences.Select(s => s.Text));
    }

    private static LocalRpcException Wrong(string message) => new(message) { ErrorCode = InvalidParams };
}

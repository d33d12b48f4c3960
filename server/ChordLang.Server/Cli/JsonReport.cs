// The answers for programs: version 1, camelCase, lines and characters from 0 in UTF-16 units.
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;

namespace ChordLang.Server.Cli;

internal sealed record PositionJson(int Line, int Character);
internal sealed record RangeJson(PositionJson Start, PositionJson End);
internal sealed record RelatedJson(string Message, string Path, RangeJson Range);
internal sealed record EditJson(RangeJson Range, string NewText);
internal sealed record FixJson(string Title, bool Safe, IReadOnlyList<EditJson> Edits);
internal sealed record FindingJson(
    string Code, string Severity, string Message, int? Bar, string? Count, RangeJson Range, IReadOnlyList<RelatedJson> Related,
    IReadOnlyList<FixJson> Fixes, IReadOnlyList<int> Strings);
internal sealed record FileJson(string Path, IReadOnlyList<FindingJson> Findings);
internal sealed record SummaryJson(int Errors, int Warnings, int Informations, int Hints);
internal sealed record CheckJson(int Version, IReadOnlyList<FileJson> Files, SummaryJson Summary);
internal sealed record PageJson(string Code, string Severity, string Title, string Page);
internal sealed record ExplainJson(int Version, IReadOnlyList<PageJson> Checks);
internal sealed record ChordToneJson(string Pitch, string Degree, int Semitones);
internal sealed record ChordTroubleJson(string Message, int Character, int Length, IReadOnlyList<string> Nearest);
internal sealed record ChordJson(string Symbol, string? Root, string? Bass, string? Kind, IReadOnlyList<ChordToneJson> Tones, ChordTroubleJson? Trouble);
internal sealed record ChordsJson(int Version, IReadOnlyList<ChordJson> Chords);
internal sealed record NameToneJson(string Pitch, string Degree);
internal sealed record NameJson(
    string Symbol, string Root, string Bass, string Quality, IReadOnlyList<NameToneJson> Tones, IReadOnlyList<string> Missing, bool Rootless, double Score, string Why);
internal sealed record ShapeJson(
    string? Kind, int? Inversion, int? Span, double? Mm, IReadOnlyList<int> Open, string? Spacing, bool? Rootless, IReadOnlyList<int> StringSet, IReadOnlyList<string> Degrees,
    string Bottom, string Top);
internal sealed record MotionJson(IReadOnlyList<string> Common, IReadOnlyList<int> Moves, string Motion);
internal sealed record VoicingJson(
    string Voicing, IReadOnlyList<string> Pitches, string? Bass, IReadOnlyList<NameJson> Names, IReadOnlyList<string> EqualRoots, int? Shift, ShapeJson? Shape, MotionJson? Next, string? Trouble);
internal sealed record VoicingsJson(int Version, IReadOnlyList<VoicingJson> Voicings);
internal sealed record KeyJson(string? Tonic, string Mode);
internal sealed record KeySpanJson(int FromBar, string? Tonic, string Mode, bool Given, double Confidence);
internal sealed record AnalysedChordJson(
    int Index, int Bar, string Count, string Symbol, KeyJson Key, int Degree, string Numeral, string Function, IReadOnlyList<string> Roles, int? Target, int Head,
    int Depth, string Reason);
internal sealed record LevelJson(int Level, IReadOnlyList<int> Indices);
internal sealed record AnalysedJson(
    string Path, KeyJson? Key, IReadOnlyList<KeySpanJson> Keys, IReadOnlyList<AnalysedChordJson> Chords, IReadOnlyList<LevelJson> Skeleton);
internal sealed record AnalyseJson(int Version, IReadOnlyList<AnalysedJson> Files);

/// <summary>Everything that is written as JSON, known at build time.</summary>
[JsonSerializable(typeof(CheckJson))]
[JsonSerializable(typeof(ConfigJson))]
[JsonSerializable(typeof(DiffJson))]
[JsonSerializable(typeof(DescribeJson))]
[JsonSerializable(typeof(FindJson))]
[JsonSerializable(typeof(ImportJson))]
[JsonSerializable(typeof(PlaceJson))]
[JsonSerializable(typeof(RespellJson))]
[JsonSerializable(typeof(PracticeJson))]
[JsonSerializable(typeof(ExplainJson))]
[JsonSerializable(typeof(ChordsJson))]
[JsonSerializable(typeof(VoicingsJson))]
[JsonSerializable(typeof(AnalyseJson))]
internal sealed partial class Json : JsonSerializerContext
{
    /// <summary>The context that writes ♭ and ♯ as themselves; nothing here goes into HTML.</summary>
    public static Json Plain { get; } = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });
}

/// <summary>Writes findings as JSON.</summary>
internal static class JsonReport
{
    /// <summary>The document of `check`.</summary>
    public static void Write(IReadOnlyList<CheckedFile> files, Terminal terminal)
    {
        int Of(Severity s) => files.Sum(f => f.Findings.Count(x => x.Severity == s));
        var document = new CheckJson(1, [.. files.Where(f => f.Source.Text is not null).Select(File)],
            new(Of(Severity.Error), Of(Severity.Warning), Of(Severity.Information), Of(Severity.Hint)));
        terminal.Json(JsonSerializer.Serialize(document, Json.Plain.CheckJson));
    }

    private static FileJson File(CheckedFile file) =>
        new(file.Source.Path, [.. file.Findings.Select(f => Finding(file.Source.Path, file.Source.Text!, f))]);

    private static FindingJson Finding(string path, SourceText text, Finding f) => new(
        f.Code, f.Severity.ToString().ToLowerInvariant(), f.Message, f.Bar, f.Count, Range(text, f.Span),
        [.. f.Related.Select(r => Related(path, text, r))],
        [.. f.Fixes.Select(x => new FixJson(x.Title, x.Safe, [.. x.Edits.Select(e => new EditJson(Range(text, e.Span), e.NewText))]))],
        f.Strings);

    // A place in another file is named by its path; its lines are not at hand here, so its range is the start of that file.
    private static RelatedJson Related(string path, SourceText text, Related r) => r.Path is null
        ? new(r.Message, path, Range(text, r.Span)) : new(r.Message, r.Path, new(new(0, 0), new(0, 0)));

    private static RangeJson Range(SourceText text, Span span) => new(Position(text, span.Start), Position(text, span.End));

    private static PositionJson Position(SourceText text, int offset)
    {
        var at = text.PositionAt(offset);
        return new(at.Line, at.Character);
    }
}

// Findings as a SARIF 2.1.0 log (OASIS), for services that keep the findings of a repository.
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Cli;

/// <summary>Writes findings as SARIF. Section numbers are those of the standard.</summary>
internal static class SarifReport
{
    /// <summary>The URI base that all paths are relative to (3.14.14): the folder that holds .git, else the current one.</summary>
    public const string Base = "ROOT";

    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One run over all files.</summary>
    public static void Write(IReadOnlyList<CheckedFile> files, Terminal terminal)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Options))
        {
            json.WriteStartObject();
            json.WriteString("$schema", Schema);
            json.WriteString("version", "2.1.0");
            json.WriteStartArray("runs");
            Run(json, files);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        terminal.Json(Encoding.UTF8.GetString(bytes.ToArray()));
    }

    /// <summary>The path of a file from the root of its repository, as a relative URI; a file outside has its own URI.</summary>
    public static string Relative(Source source) => RelativePath(source) is var path && Path.IsPathRooted(path)
        ? new Uri(path).AbsoluteUri : string.Join('/', path.Split('/').Select(Uri.EscapeDataString));

    /// <summary>The path of a file from the root of its repository, with / between folders; a file outside has its full path.</summary>
    public static string RelativePath(Source source) => source.FullPath is null ? source.Path
        : Path.GetRelativePath(Root(), source.FullPath).Replace('\\', '/') is var path && path.StartsWith("../", StringComparison.Ordinal) ? source.FullPath : path;

    private static string Root()
    {
        for (var at = Environment.CurrentDirectory; at is not null; at = Path.GetDirectoryName(at))
            if (Path.Exists(Path.Combine(at, ".git")))
                return at;
        return Environment.CurrentDirectory;
    }

    private static void Run(Utf8JsonWriter json, IReadOnlyList<CheckedFile> files)
    {
        json.WriteStartObject();
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "chordlang");
        json.WriteString("semanticVersion", CommandLine.Version);
        json.WriteStartArray("rules");
        foreach (var check in CheckCatalogue.All)
            Rule(json, check);
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
        Invocation(json, files);
        // 3.14.17: columns count UTF-16 code units.
        json.WriteString("columnKind", "utf16CodeUnits");
        json.WriteStartObject("originalUriBaseIds");
        json.WriteStartObject(Base);
        Words(json, "description", "The root of the lesson repository.");
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteStartArray("results");
        foreach (var file in files)
            if (file.Source.Text is { } text)
            {
                var known = new Dictionary<string, int>(StringComparer.Ordinal);
                foreach (var (finding, allow) in file.Findings.Select(f => (f, (Allow?)null)).Concat(file.Allowed.Select(a => (a.Finding, (Allow?)a.Allow))).OrderBy(f => f.Item1.Span.Start))
                    Result(json, Relative(file.Source), text, finding, allow, known);
            }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    // 3.49: the rule, with the page of the check as its help.
    private static void Rule(Utf8JsonWriter json, Check check)
    {
        var page = (CheckCatalogue.Page(check.Code) ?? check.Title).Trim();
        json.WriteStartObject();
        json.WriteString("id", check.Code);
        Words(json, "shortDescription", check.Title);
        Words(json, "fullDescription", What(page) ?? check.Title);
        json.WriteStartObject("help");
        json.WriteString("text", page);
        json.WriteString("markdown", page);
        json.WriteEndObject();
        json.WriteStartObject("defaultConfiguration");
        json.WriteString("level", Level(check.Severity));
        json.WriteEndObject();
        json.WriteStartObject("properties");
        json.WriteStartArray("tags");
        json.WriteStringValue(check.Code[..check.Code.IndexOf('-', StringComparison.Ordinal)]);
        json.WriteEndArray();
        json.WriteString("problem.severity", check.Severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "recommendation" });
        json.WriteEndObject();
        json.WriteEndObject();
    }

    // The paragraph under "## What".
    private static string? What(string page)
    {
        var lines = page.Split('\n').Select(l => l.TrimEnd('\r')).SkipWhile(l => l != "## What").Skip(1).SkipWhile(l => l.Length == 0).TakeWhile(l => l.Length > 0 && l[0] != '#').ToList();
        return lines.Count == 0 ? null : string.Join(' ', lines);
    }

    // 3.20: files that could not be read are told as notifications of the run.
    private static void Invocation(Utf8JsonWriter json, IReadOnlyList<CheckedFile> files)
    {
        var unread = files.Where(f => f.Source.Text is null).ToList();
        json.WriteStartArray("invocations");
        json.WriteStartObject();
        json.WriteBoolean("executionSuccessful", unread.Count == 0);
        if (unread.Count > 0)
        {
            json.WriteStartArray("toolExecutionNotifications");
            foreach (var file in unread)
            {
                json.WriteStartObject();
                json.WriteString("level", "error");
                Said(json, $"{file.Source.Path} cannot be {(file.Failed ? "checked" : "read")}: {file.Source.Trouble}.");
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void Result(Utf8JsonWriter json, string uri, SourceText text, Finding finding, Allow? allow, Dictionary<string, int> known)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Code);
        json.WriteNumber("ruleIndex", CheckCatalogue.All.Select((c, i) => (c.Code, i)).First(c => c.Code == finding.Code).i);
        json.WriteString("level", Level(finding.Severity));
        Said(json, finding.Message);
        json.WriteStartArray("locations");
        json.WriteStartObject();
        Physical(json, uri, text, finding.Span);
        if (finding.Bar is { } bar)
        {
            json.WriteStartArray("logicalLocations");
            json.WriteStartObject();
            json.WriteString("name", bar == 0 ? "pickup" : $"bar {bar}");
            json.WriteString("kind", "bar");
            json.WriteEndObject();
            json.WriteEndArray();
        }
        json.WriteEndObject();
        json.WriteEndArray();
        Related(json, uri, text, finding);
        json.WriteStartObject("partialFingerprints");
        var print = Fingerprint(text, finding, known);
        json.WriteString("chordlangFinding/v1", print);
        json.WriteString("primaryLocationLineHash", print);
        json.WriteEndObject();
        Fixes(json, uri, text, finding);
        // 3.27.23: an empty list says that the result is known not to be suppressed.
        json.WriteStartArray("suppressions");
        if (allow is not null)
        {
            json.WriteStartObject();
            json.WriteString("kind", "inSource");
            if (allow.Reason.Length > 0)
                json.WriteString("justification", allow.Reason);
            json.WriteStartObject("location");
            Physical(json, uri, text, allow.Span);
            json.WriteEndObject();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Related(Utf8JsonWriter json, string uri, SourceText text, Finding finding)
    {
        var here = finding.Related.Where(r => r.Path is null).ToList();
        if (here.Count == 0)
            return;
        json.WriteStartArray("relatedLocations");
        foreach (var (related, i) in here.Select((r, i) => (r, i)))
        {
            json.WriteStartObject();
            json.WriteNumber("id", i);
            Said(json, related.Message);
            Physical(json, uri, text, related.Span);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    // 3.55: only what cannot change the sound may be done without a look.
    private static void Fixes(Utf8JsonWriter json, string uri, SourceText text, Finding finding)
    {
        var safe = finding.Fixes.Where(f => f is { Safe: true, Edits.Length: > 0 }).ToList();
        if (safe.Count == 0)
            return;
        json.WriteStartArray("fixes");
        foreach (var fix in safe)
        {
            json.WriteStartObject();
            Words(json, "description", fix.Title);
            json.WriteStartArray("artifactChanges");
            json.WriteStartObject();
            Artifact(json, uri);
            json.WriteStartArray("replacements");
            foreach (var edit in fix.Edits)
            {
                json.WriteStartObject();
                Region(json, "deletedRegion", text, edit.Span);
                Words(json, "insertedContent", edit.NewText);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    // Made of what is blamed and the line it stands in, blanks aside: bars above may come and go. Equal ones are told apart by their order.
    private static string Fingerprint(SourceText text, Finding finding, Dictionary<string, int> known)
    {
        static string Plain(string line) => string.Join(' ', line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        var line = text.Lines[text.LineAt(finding.Span.Start)];
        var content = $"{finding.Code}\n{Plain(text.Text.Substring(line.Start, line.Length))}\n{Plain(text[finding.Span])}";
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(content)))[..16];
        return $"{hash}:{known[hash] = known.GetValueOrDefault(hash) + 1}";
    }

    private static void Physical(Utf8JsonWriter json, string uri, SourceText text, Span span)
    {
        json.WriteStartObject("physicalLocation");
        Artifact(json, uri);
        Region(json, "region", text, span);
        json.WriteEndObject();
    }

    private static void Artifact(Utf8JsonWriter json, string uri)
    {
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", uri);
        if (!uri.Contains(':', StringComparison.Ordinal))
            json.WriteString("uriBaseId", Base);
        json.WriteEndObject();
    }

    private static void Region(Utf8JsonWriter json, string name, SourceText text, Span span)
    {
        var (start, end) = (text.PositionAt(span.Start), text.PositionAt(span.End));
        json.WriteStartObject(name);
        json.WriteNumber("startLine", start.Line + 1);
        json.WriteNumber("startColumn", start.Character + 1);
        json.WriteNumber("endLine", end.Line + 1);
        json.WriteNumber("endColumn", end.Character + 1);
        json.WriteEndObject();
    }

    // 3.11.5 and 3.11.6: in a message, braces around a number are a place to be filled, and brackets before a parenthesis are a link; what a lesson holds is neither.
    private static void Said(Utf8JsonWriter json, string message)
    {
        if (message.Contains("](", StringComparison.Ordinal))
            message = message.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("[", "\\[", StringComparison.Ordinal).Replace("]", "\\]", StringComparison.Ordinal);
        Words(json, "message", message.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));
    }

    private static void Words(Utf8JsonWriter json, string name, string text)
    {
        json.WriteStartObject(name);
        json.WriteString("text", text);
        json.WriteEndObject();
    }

    private static string Level(Severity severity) => severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "note" };
}

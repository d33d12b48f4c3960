// The servers that are measured: ours in both ways of telling findings, and those of other languages that are installed.
namespace ChordLang.Benchmarks;

/// <summary>A server as it is measured.</summary>
/// <param name="Name">As the tables call it.</param>
/// <param name="Command">How it is started.</param>
/// <param name="Language">What it is measured on.</param>
/// <param name="Pull">True where the client asks for findings, if it may.</param>
internal sealed record Server(string Name, IReadOnlyList<string> Command, Language Language, bool Pull)
{
    /// <summary>Our server, telling findings by itself.</summary>
    public static Server Pushing(Options options) => new("chordlang, pushing", [.. options.Program, "serve"], Language.Lessons, false);

    /// <summary>Our server, asked for findings.</summary>
    public static Server Asked(Options options) => new("chordlang, asked", [.. options.Program, "serve"], Language.Lessons, true);

    /// <summary>Those of other languages that are found in the folders or on the path; the others are told.</summary>
    public static IEnumerable<Server> Others(IReadOnlyList<string> folders)
    {
        (string Name, string Program, string[] Arguments, Language Language, bool Pull)[] known =
        [
            ("json, asked", "vscode-json-language-server", ["--stdio"], Language.Json, true),
            ("json, pushing", "vscode-json-language-server", ["--stdio"], Language.Json, false),
            ("css, asked", "vscode-css-language-server", ["--stdio"], Language.Css, true),
            ("css, pushing", "vscode-css-language-server", ["--stdio"], Language.Css, false),
            ("typescript 7, asked", "tsc", ["--lsp", "--stdio"], Language.TypeScript, true),
            ("typescript 5, pushing", "typescript-language-server", ["--stdio"], Language.TypeScript, false),
            ("clangd, pushing", "clangd", ["--background-index=false", "--log=error"], Language.C, false),
            ("yaml, pushing", "yaml-language-server", ["--stdio"], Language.Yaml, false),
            ("dockerfile, pushing", "docker-langserver", ["--stdio"], Language.Container, false),
            ("bash, pushing", "bash-language-server", ["start"], Language.Shell, false),
            ("pyright, pushing", "pyright-langserver", ["--stdio"], Language.Python, false),
            ("pylsp, pushing", "pylsp", [], Language.Python, false),
        ];
        var path = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        foreach (var (name, program, arguments, language, pull) in known)
            if (folders.Concat(path).Select(f => Path.Combine(f, program)).FirstOrDefault(File.Exists) is { } found)
                yield return new(name, [found, .. arguments], language, pull);
            else
                Console.Error.WriteLine($"Not installed, so not measured: {name} ({program}).");
    }
}

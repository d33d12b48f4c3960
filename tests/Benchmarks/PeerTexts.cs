// Texts of a wanted length for the servers of other languages that ours is measured against.
using System.Globalization;

namespace ChordLang.Benchmarks;

internal sealed partial record Language
{
    /// <summary>What the server is configured with, as JSON, or null.</summary>
    public string? Settings { get; init; }

    /// <summary>JSON, with a schema, so that a hover has something to say.</summary>
    public static Language Json { get; } = new("json", ".json", n => $"[\n{Many(n, 7, i => $"{(i > 0 ? ",\n" : "")}  {{\n    \"id\": {i},\n    \"name\": \"rate-{i}\",\n    \"enabled\": true,\n    \"ratio\": {i % 9}.5,\n    \"tags\": [\"a\", \"b\"]\n  }}")}\n]\n",
        l => l.EndsWith(',') && l.Contains(':', StringComparison.Ordinal), '@')
    {
        Settings = """
            {"json":{"validate":{"enable":true},"schemas":[{"fileMatch":["*.json"],"url":"mem://bench","schema":{"type":"array","items":{"type":"object","required":["id"],"properties":{
            "id":{"type":"integer","description":"Its number."},"name":{"type":"string","description":"Its name."},"enabled":{"type":"boolean","description":"Is it on?"},
            "ratio":{"type":"number","description":"A ratio."},"tags":{"type":"array","description":"Its tags.","items":{"type":"string"}}}}}}]}}
            """,
    };

    /// <summary>C.</summary>
    public static Language C { get; } = new("c", ".c",
        n => Many(n, 9, i => $"static int step_{i}(int a, int b)\n{{\n    int sum = a * {i % 7 + 1} + b;\n    for (int k = 0; k < {i % 9 + 2}; k++) {{\n        sum += k ^ b;\n    }}\n    return sum;\n}}\n\n") + "int main(void)\n{\n    return step_0(1, 2);\n}\n",
        l => l.EndsWith(';') && l.StartsWith("    ", StringComparison.Ordinal), '@');

    /// <summary>TypeScript.</summary>
    public static Language TypeScript { get; } = new("typescript", ".ts",
        n => "export {};\n" + Many(n, 9, i => $"export function step_{i}(x: {{ a: number }}, k: number): number {{\n  let sum = x.a * {i % 7 + 1} + k;\n  for (let j = 0; j < k; j++) {{\n    sum += j ^ k;\n  }}\n  console.log(sum);\n  return sum;\n}}\n\n"),
        l => l.EndsWith(';') && l.StartsWith("  ", StringComparison.Ordinal), ')');

    /// <summary>CSS.</summary>
    public static Language Css { get; } = new("css", ".css",
        n => Many(n, 6, i => $".rate-{i} {{\n  width: {i % 90 + 10}px;\n  display: block;\n  color: #{i % 10}0{i % 7};\n  margin: {i % 9}px auto;\n}}\n"),
        l => l.EndsWith(';'), '}') { Settings = """{"css":{"validate":true,"lint":{}}}""" };

    /// <summary>YAML.</summary>
    public static Language Yaml { get; } = new("yaml", ".yaml",
        n => "items:\n" + Many(n, 7, i => $"  - id: {i}\n    name: rate-{i}\n    enabled: true\n    ratio: {i % 9}.5\n    tags:\n      - a{i}\n      - b{i}\n"),
        l => l.StartsWith("    name:", StringComparison.Ordinal), ':') { Settings = """{"yaml":{"schemaStore":{"enable":false},"format":{"enable":true},"hover":true,"completion":true,"validate":true}}""" };

    /// <summary>Shell.</summary>
    public static Language Shell { get; } = new("shellscript", ".sh",
        n => "#!/bin/bash\n\n" + Many(n, 8, i => $"step_{i}() {{\n  local a=\"$1\"\n  if [ \"$a\" -gt {i % 9} ]; then\n    echo \"{i} $a\";\n  fi\n  echo \"{i}\";\n}}\nstep_{i} {i}\n"),
        l => l.EndsWith(';'), ')');

    /// <summary>Build files of containers.</summary>
    public static Language Container { get; } = new("dockerfile", ".dockerfile",
        n => "FROM debian:12\n\n" + Many(n, 4, i => $"# step {i}\nENV STEP_{i}={i}\nRUN echo {i} > /srv/step_{i}\n\n"),
        l => l.StartsWith("ENV", StringComparison.Ordinal), '"');

    /// <summary>Python.</summary>
    public static Language Python { get; } = new("python", ".py",
        n => "\"\"\"Steps.\"\"\"\n\n\n" + Many(n, 9, i => $"def step_{i}(a, b):\n    \"\"\"Step {i}.\"\"\"\n    total = a * {i % 7 + 1} + b\n    for k in range({i % 9 + 2}):\n        total += (k ^ b)\n    print({i}, total)\n    return total\n\n\n"),
        l => l.EndsWith(')') && l.StartsWith("    ", StringComparison.Ordinal), ')');

    private static string Many(int lines, int each, Func<int, FormattableString> one) =>
        string.Concat(Enumerable.Range(0, Math.Max(1, lines / each)).Select(i => one(i).ToString(CultureInfo.InvariantCulture)));
}

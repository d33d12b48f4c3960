// Measures what the name checks catch: every fret of every named voicing is moved, and every voicing to its neighbouring strings.
// dotnet run --project tests/ChordLang.Mutation [-- --shapes FILE] [--list N]
using System.Text.Json;
using ChordLang.Mutation;
using ChordLang.Testing;

var shapes = Value("--shapes");
var list = int.TryParse(Value("--list"), out var n) ? n : 0;
var report = new Report();
foreach (var path in Repository.Samples("valid"))
    report.Add("samples", Mutants.Of(Repository.Text(path)));
if (shapes is not null)
    foreach (var (symbol, slots) in Named(shapes))
        report.Add("shapes", Mutants.Of($"frets 24\n\n| {symbol}\n    1 {slots}\n"));
report.Print(Console.Out, list);
return 0;

string? Value(string option) => Array.IndexOf(args, option) is var i and >= 0 && i + 1 < args.Length ? args[i + 1] : null;

// A JSON list of named shapes: key, suffix, and frets, lowest string first, -1 for a string that is not played.
static IEnumerable<(string Symbol, string Slots)> Named(string path)
{
    using var json = JsonDocument.Parse(File.ReadAllText(path));
    foreach (var shape in json.RootElement.EnumerateArray())
        yield return (Symbol(shape.GetProperty("key").GetString()!, shape.GetProperty("suffix").GetString()!),
            string.Join('-', shape.GetProperty("frets").EnumerateArray().Select(f => f.GetInt32() is >= 0 and var fret ? $"{fret}" : "x")));
}

// Such lists write a triad's kind in words and run a minor chord's major seventh into one word.
static string Symbol(string key, string suffix) => key + suffix.Split('/')[0] switch
{
    "major" => "", "minor" => "m", "69" => "6/9", "m69" => "m6/9", "alt" => "(b5)", "mmaj7b5" => "m(maj7)b5",
    ['m', 'm', 'a', 'j', .. var rest] => $"m(maj{rest})", var other => other,
} + (suffix.Contains('/') ? suffix[suffix.IndexOf('/')..] : "");

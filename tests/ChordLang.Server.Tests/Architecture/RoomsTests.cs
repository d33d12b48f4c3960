// Holds the table of rooms in DEVELOPERS.md against what the compiled rooms refer to; `using` lines would prove nothing.
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Text.RegularExpressions;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Architecture;

public sealed partial class RoomsTests
{
    private static readonly Dictionary<string, string[]> Allowed = RoomRow().Matches(Repository.Text("DEVELOPERS.md"))
        .ToDictionary(m => m.Groups[1].Value, m => m.Groups[2].Value.Split(", ").Where(r => r != "–").ToArray());

    [Fact]
    public void The_table_names_every_room() =>
        Assert.Equal(Repository.Files("grammar", "ChordLang.*.csproj").Concat(Repository.Files("server", "ChordLang.*.csproj"))
            .Select(p => Path.GetFileNameWithoutExtension(p)["ChordLang.".Length..]).Order(), Allowed.Keys.Order());

    [Fact]
    public void Rooms_refer_to_allowed_rooms_only() =>
        Assert.All(Allowed, room => Assert.Empty(Referred(room.Key).Except(room.Value)));

    [Fact]
    public void Allowed_arrows_make_no_cycle()
    {
        var left = new Dictionary<string, string[]>(Allowed);
        while (left.Keys.FirstOrDefault(r => !left[r].Any(left.ContainsKey)) is { } free)
            left.Remove(free);
        Assert.Empty(left.Keys);
    }

    [Fact]
    public void A_file_stays_small_and_opens_with_why_it_exists()
    {
        var files = new[] { "grammar", "server", "tests" }.SelectMany(f => Repository.Files(f, "*.cs")).Where(f => !f.Contains("/obj/", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(files);
        Assert.All(files, path =>
        {
            var lines = File.ReadAllLines(Repository.At(path));
            Assert.True(lines.Length < 400, $"{path} has {lines.Length} lines");
            Assert.True(lines[0].StartsWith("// ", StringComparison.Ordinal), $"{path} does not say why it exists");
        });
    }

    // An assembly reference is written by the compiler only where a symbol of that room is used.
    private static List<string> Referred(string room)
    {
        var file = room == "Server" ? "chordlang.dll" : $"ChordLang.{room}.dll";
        using var stream = File.OpenRead(Path.Combine(AppContext.BaseDirectory, file));
        using var image = new PEReader(stream);
        var metadata = image.GetMetadataReader();
        return [.. metadata.AssemblyReferences.Select(r => metadata.GetString(metadata.GetAssemblyReference(r).Name))
            .Where(n => n.StartsWith("ChordLang.", StringComparison.Ordinal)).Select(n => n["ChordLang.".Length..])];
    }

    [GeneratedRegex(@"^\| ([A-Z][a-z]+) \| ([A-Z][A-Za-z, ]*|–) \| ", RegexOptions.Multiline)]
    private static partial Regex RoomRow();
}

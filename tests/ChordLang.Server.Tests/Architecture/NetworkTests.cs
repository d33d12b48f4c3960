// No room of ours can speak to a network: no type of one is referred to. tests/Native/alone holds the compiled program to the same.
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace ChordLang.Server.Tests.Architecture;

public sealed class NetworkTests
{
    [Fact]
    public void No_room_refers_to_a_type_of_the_network()
    {
        var ours = Directory.GetFiles(AppContext.BaseDirectory, "ChordLang.*.dll").Where(f => !f.EndsWith(".Tests.dll", StringComparison.Ordinal)).Append(Path.Combine(AppContext.BaseDirectory, "chordlang.dll")).ToList();
        Assert.True(ours.Count > 8);
        Assert.All(ours, file => Assert.DoesNotContain(Spaces(file), OfNetwork));
        // The same look finds what is there: this one is of a library that can speak to a network.
        Assert.Contains(Spaces(Path.Combine(AppContext.BaseDirectory, "StreamJsonRpc.dll")), OfNetwork);
    }

    private static bool OfNetwork(string space) => space == "System.Net" || space.StartsWith("System.Net.", StringComparison.Ordinal);

    private static HashSet<string> Spaces(string file)
    {
        using var stream = File.OpenRead(file);
        using var image = new PEReader(stream);
        var metadata = image.GetMetadataReader();
        return [.. metadata.TypeReferences.Select(t => metadata.GetString(metadata.GetTypeReference(t).Namespace))];
    }
}

// Several texts in one input, so that every input is one text that can be kept, mutated and shrunk.
namespace ChordLang.Fuzz.Generating;

/// <summary>Joins and parts inputs.</summary>
internal static class Parts
{
    /// <summary>What stands between two parts: the record separator of ASCII.</summary>
    public const char Between = '\u001E';

    /// <summary>Joined.</summary>
    public static string Join(params IEnumerable<string> parts) => string.Join(Between, parts);

    /// <summary>The parts; empty texts where there are fewer.</summary>
    public static string[] Of(string input, int least)
    {
        var parts = input.Split(Between);
        return parts.Length >= least ? parts : [.. parts, .. Enumerable.Repeat("", least - parts.Length)];
    }
}

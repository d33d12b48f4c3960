// An input that broke something, kept as a file that people can read: all but plain characters are escaped.
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ChordLang.Fuzz.Running;

/// <summary>An input with its target and what it broke.</summary>
/// <param name="Target">The target's name.</param>
/// <param name="Trouble">What broke when it was found, one line.</param>
/// <param name="Input">The input.</param>
internal sealed record FoundCase(string Target, string Trouble, string Input)
{
    /// <summary>The cases in a file, or in all files of a folder, sorted.</summary>
    public static IEnumerable<FoundCase> Read(string path) =>
        (Directory.Exists(path) ? Directory.GetFiles(path, "*.txt") : [path]).Order(StringComparer.Ordinal).Select(f => Parse(File.ReadAllText(f)));

    /// <summary>Writes it into a folder under a name made of target and content; answers the path.</summary>
    public string Write(string folder)
    {
        Directory.CreateDirectory(folder);
        var text = ToString();
        var path = Path.Combine(folder, $"{Target}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Input.Length + Escaped(Input))))[..10]}.txt");
        File.WriteAllText(path, text);
        return path;
    }

    /// <summary>As a file: the target, what broke, the input. Line breaks of the file mean nothing; those of the input are written \n.</summary>
    public override string ToString() => $"{Target}\n{Escaped(Trouble.Split('\n')[0])}\n{Escaped(Input)}\n";

    /// <summary>Reads a file.</summary>
    public static FoundCase Parse(string text)
    {
        var lines = text.Split('\n', 3);
        return new(lines[0].Trim(), Plain(lines[1]), Plain(lines[2]));
    }

    private static string Escaped(string text)
    {
        var result = new StringBuilder();
        foreach (var c in text)
            _ = c switch
            {
                '\n' => result.Append("\\n\n"), '\r' => result.Append("\\r"), '\t' => result.Append("\\t"), '\\' => result.Append("\\\\"),
                >= ' ' and <= '~' => result.Append(c), _ => result.Append("\\u").Append(((int)c).ToString("x4", CultureInfo.InvariantCulture)),
            };
        return result.ToString();
    }

    private static string Plain(string text)
    {
        var result = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
            if (text[i] is '\n' or '\r')
                continue;
            else if (text[i] != '\\')
                result.Append(text[i]);
            else if (text[++i] == 'u')
            {
                result.Append((char)int.Parse(text.AsSpan(i + 1, 4), NumberStyles.HexNumber, CultureInfo.InvariantCulture));
                i += 4;
            }
            else
                result.Append(text[i] switch { 'n' => '\n', 'r' => '\r', 't' => '\t', var c => c });
        return result.ToString();
    }
}

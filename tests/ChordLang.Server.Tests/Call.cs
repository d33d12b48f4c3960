// Calls the command line as a user does, and keeps what it says.
using System.Runtime.CompilerServices;
using System.Text;
using ChordLang.Server.Cli;
using ChordLang.Testing;

namespace ChordLang.Server.Tests;

/// <summary>What a call said.</summary>
/// <param name="Code">Exit code.</param>
/// <param name="Out">Standard output.</param>
/// <param name="Error">Standard error.</param>
internal sealed record Call(int Code, string Out, string Error)
{
    /// <summary>Calls with these arguments; paths are those of the repository.</summary>
    public static Call Of(params string[] arguments) => With("", arguments);

    /// <summary>Calls with a text on standard input.</summary>
    public static Call With(string input, params string[] arguments) => With(Encoding.UTF8.GetBytes(input), false, arguments);

    /// <summary>Calls with bytes on standard input, and with or without colour.</summary>
    public static Call With(byte[] input, bool colour, params string[] arguments)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var code = CommandLine.Run(arguments, new(output, error, () => new MemoryStream(input), colour));
        return new(code, output.ToString(), error.ToString());
    }

    // Once, before any test: paths in calls mean the same as in a terminal at the root of the repository.
    [ModuleInitializer]
    internal static void StandAtTheRoot() => Environment.CurrentDirectory = Repository.Root;
}

/// <summary>A folder that goes away with its test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    /// <summary>Its full path.</summary>
    public string Path { get; } = Directory.CreateTempSubdirectory("chordlang-test-").FullName;

    /// <summary>Writes a file in it and answers its full path.</summary>
    public string Write(string name, string text) => Write(name, Encoding.UTF8.GetBytes(text));

    /// <inheritdoc cref="Write(string, string)"/>
    public string Write(string name, byte[] bytes)
    {
        var path = System.IO.Path.Combine(Path, name);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(Path, true);
}

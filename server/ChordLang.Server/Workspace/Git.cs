// The one place that calls git.
using System.ComponentModel;
using System.Diagnostics;
using System.Text;

namespace ChordLang.Server.Workspace;

/// <summary>What git answered.</summary>
/// <param name="Code">Its exit code.</param>
/// <param name="Out">Its standard output.</param>
/// <param name="Error">Its standard error.</param>
internal sealed record GitAnswer(int Code, byte[] Out, string Error)
{
    /// <summary>Its output as text.</summary>
    public string Text => Encoding.UTF8.GetString(Out);

    /// <summary>Its output as one line.</summary>
    public string Line => Text.TrimEnd('\n', '\r');
}

/// <summary>Calls git in a folder.</summary>
/// <param name="folder">The folder.</param>
internal sealed class Git(string folder)
{
    /// <summary>The folder that commands run in.</summary>
    public string Folder => folder;

    /// <summary>Runs git; its exit code is the caller's to judge. An <see cref="IOException"/> where there is no git.</summary>
    public GitAnswer Run(params string[] arguments)
    {
        var start = new ProcessStartInfo("git", arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true };
        try
        {
            using var process = Process.Start(start)!;
            process.StandardInput.Close();
            var error = process.StandardError.ReadToEndAsync();
            using var output = new MemoryStream();
            process.StandardOutput.BaseStream.CopyTo(output);
            process.WaitForExit();
            return new(process.ExitCode, output.ToArray(), error.GetAwaiter().GetResult());
        }
        catch (Win32Exception e)
        {
            throw new IOException($"git could not be started: {e.Message}", e);
        }
    }

    /// <summary>Runs git and answers its output as one line; an <see cref="IOException"/> where it fails.</summary>
    public string Ask(params string[] arguments)
    {
        var answer = Run(arguments);
        return answer.Code == 0 ? answer.Line : throw new IOException($"git {string.Join(' ', arguments)}: {answer.Error.Trim()}");
    }
}

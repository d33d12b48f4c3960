// The program as a process: its streams, its exit codes, bytes that no test in the same process would see.
using System.Diagnostics;
using System.Text;
using ChordLang.Testing;

namespace ChordLang.Server.Tests;

public sealed class ProcessTests
{
    [Theory]
    [InlineData("key C major\n\n| Cmaj7\n    1 x-3-5-4-5-x\n", 0)]
    [InlineData("key C major\n\n| Cmaj7\n    1 x-3-5-4-6-x\n", 1)]
    public async Task Standard_output_is_one_document_without_a_byte_order_mark(string text, int code)
    {
        var (exit, output, error) = await Run(text, "check", "-", "--format", "json");
        Assert.Equal((code, ""), (exit, error));
        Assert.Equal((byte)'{', output[0]);
        Assert.DoesNotContain((byte)'\r', output);
    }

    [Fact]
    public async Task Misuse_says_so_on_standard_error()
    {
        var (exit, output, error) = await Run("", "sing");
        Assert.Equal((2, 0), (exit, output.Length));
        Assert.StartsWith("chordlang: there is no command 'sing'.", error, StringComparison.Ordinal);
    }

    private static async Task<(int Code, byte[] Out, string Error)> Run(string input, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "chordlang.dll"), .. arguments])
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Repository.Root,
        };
        using var process = Process.Start(start)!;
        await process.StandardInput.BaseStream.WriteAsync(Encoding.UTF8.GetBytes(input));
        process.StandardInput.Close();
        using var output = new MemoryStream();
        var error = process.StandardError.ReadToEndAsync();
        await process.StandardOutput.BaseStream.CopyToAsync(output);
        await process.WaitForExitAsync();
        return (process.ExitCode, output.ToArray(), await error);
    }
}

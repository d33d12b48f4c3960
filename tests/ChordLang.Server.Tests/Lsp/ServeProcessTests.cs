// The server as a process: nothing but frames on standard output, and an end with its input or its parent.
using System.Diagnostics;
using System.Text;

namespace ChordLang.Server.Tests.Lsp;

public sealed class ServeProcessTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    // It ends within two seconds; where all its neighbours build at the same time, it may take as long again and more.
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(8);

    [Fact]
    public async Task Every_byte_of_standard_output_is_framed_and_the_end_of_input_ends_it_while_busy()
    {
        using var server = Start();
        var text = string.Concat(Enumerable.Repeat("| CΔ 3 B♭7\\n    1 x-3-5-4-6-x\\n", 500));
        await Send(server, """{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"capabilities":{}}}""");
        await Send(server, $$$"""{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:x","languageId":"chordlang","version":1,"text":"{{{text}}}"} } }""");
        for (var i = 2; i < 100; i++)
            await Send(server, $$$"""{"jsonrpc":"2.0","id":{{{i}}},"method":"textDocument/codeAction","params":{"textDocument":{"uri":"untitled:x"},"range":{"start":{"line":0,"character":0},"end":{"line":900,"character":0}},"context":{"diagnostics":[]} } }""");
        server.StandardInput.Close();
        using var output = new MemoryStream();
        await server.StandardOutput.BaseStream.CopyToAsync(output).WaitAsync(Soon);
        await server.WaitForExitAsync().WaitAsync(Soon);
        Assert.Equal(1, server.ExitCode);
        var (bytes, at) = (output.ToArray(), 0);
        for (var frames = 0; at < bytes.Length; frames++)
        {
            var end = bytes.AsSpan(at).IndexOf("\r\n\r\n"u8);
            // The process may end in the middle of its last frame; what is there must be the beginning of one.
            if (end < 0)
                break;
            var header = Encoding.ASCII.GetString(bytes, at, end);
            Assert.StartsWith("Content-Length: ", header, StringComparison.Ordinal);
            at += end + 4 + int.Parse(header.Split("\r\n")[0].AsSpan(16), System.Globalization.CultureInfo.InvariantCulture);
        }
    }

    [Fact]
    public async Task The_end_of_the_parent_ends_it_though_its_input_stays_open()
    {
        using var parent = Process.Start(new ProcessStartInfo("cat") { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        using var server = Start();
        await Send(server, $$$"""{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":{{{parent.Id}}},"capabilities":{} } }""");
        parent.StandardInput.Close();
        await parent.WaitForExitAsync().WaitAsync(Patience);
        await server.WaitForExitAsync().WaitAsync(Soon);
        Assert.Equal(1, server.ExitCode);
    }

    [Fact]
    public async Task The_end_of_the_parent_ends_it_while_it_is_busy()
    {
        using var parent = Process.Start(new ProcessStartInfo("cat") { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        using var server = Start();
        await Send(server, $$$"""{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":{{{parent.Id}}},"capabilities":{} } }""");
        // More than a minute of work, all asked at once.
        var text = string.Concat(Enumerable.Repeat("| CΔ 3 B♭7\\n    1 x-3-5-4-6-x\\n", 5000));
        await Send(server, $$$"""{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:x","languageId":"chordlang","version":1,"text":"{{{text}}}"} } }""");
        for (var i = 2; i < 100; i++)
            await Send(server, $$$"""{"jsonrpc":"2.0","id":{{{i}}},"method":"textDocument/codeAction","params":{"textDocument":{"uri":"untitled:x"},"range":{"start":{"line":0,"character":0},"end":{"line":9000,"character":0}},"context":{"diagnostics":[]} } }""");
        parent.StandardInput.Close();
        await parent.WaitForExitAsync().WaitAsync(Patience);
        await server.WaitForExitAsync().WaitAsync(Soon);
        Assert.Equal(1, server.ExitCode);
    }

    private static Process Start()
    {
        var (program, before) = Environment.GetEnvironmentVariable("CHORDLANG_SERVER") is { } named ? (named, Array.Empty<string>()) : ("dotnet", [Path.Combine(AppContext.BaseDirectory, "chordlang.dll")]);
        return Process.Start(new ProcessStartInfo(program, [.. before, "serve", "--stdio"]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
    }

    private static async Task Send(Process server, string body)
    {
        var bytes = Encoding.UTF8.GetBytes(body);
        await server.StandardInput.BaseStream.WriteAsync(Encoding.ASCII.GetBytes($"Content-Length: {bytes.Length}\r\n\r\n"));
        await server.StandardInput.BaseStream.WriteAsync(bytes);
        await server.StandardInput.BaseStream.FlushAsync();
    }
}

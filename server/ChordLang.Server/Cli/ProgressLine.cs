// One line on a terminal that says how many files are done, and is gone before anything else is written.
namespace ChordLang.Server.Cli;

/// <summary>Shows how far a run over many files is; nothing where standard error is no terminal, and nothing in the first moment.</summary>
/// <param name="terminal">Where it is shown.</param>
/// <param name="total">How many files there are.</param>
/// <param name="clock">The time; none: the machine's.</param>
internal sealed class ProgressLine(Terminal terminal, int total, TimeProvider? clock = null) : IDisposable
{
    // A short run shows nothing, a long one no flicker.
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(500), Beat = TimeSpan.FromMilliseconds(100);

    private readonly TimeProvider clock = clock ?? TimeProvider.System;
    private readonly long begun = (clock ?? TimeProvider.System).GetTimestamp();
    private long? last;
    private int done, width;

    /// <summary>One file more is done.</summary>
    public void Step()
    {
        done++;
        if (!terminal.ShowsProgress || done >= total || clock.GetElapsedTime(begun) < Quiet || last is { } told && clock.GetElapsedTime(told) < Beat)
            return;
        // What was said stands above the line.
        terminal.Out.Flush();
        var line = $"{done} of {total} files, {100L * done / total} %";
        terminal.Error.Write($"\r{line}");
        (last, width) = (clock.GetTimestamp(), line.Length);
    }

    /// <summary>Takes the line away, so that other words can be written.</summary>
    public void Clear()
    {
        if (width == 0)
            return;
        terminal.Error.Write($"\r{new string(' ', width)}\r");
        width = 0;
    }

    /// <inheritdoc/>
    public void Dispose() => Clear();
}

// How far a long run is, on a terminal: the clock is turned by hand.
using ChordLang.Server.Cli;

namespace ChordLang.Server.Tests.Cli;

public sealed class ProgressLineTests : IDisposable
{
    private readonly StringWriter said = new() { NewLine = "\n" };
    private readonly Clock clock = new();

    [Fact]
    public void Only_on_a_terminal()
    {
        using (var line = new ProgressLine(Terminal(false), 10, clock))
        {
            clock.Now += 1000;
            line.Step();
        }
        Assert.Equal("", said.ToString());
    }

    [Fact]
    public void A_short_run_shows_nothing()
    {
        using (var line = new ProgressLine(Terminal(true), 10, clock))
            line.Step();
        Assert.Equal("", said.ToString());
    }

    [Fact]
    public void A_long_one_is_told_ten_times_a_second_and_cleans_up_behind_itself()
    {
        using (var line = new ProgressLine(Terminal(true), 10, clock))
        {
            clock.Now += 600;
            line.Step();
            clock.Now += 50;
            line.Step();
            clock.Now += 50;
            line.Step();
        }
        Assert.Equal("\r1 of 10 files, 10 %\r3 of 10 files, 30 %\r" + new string(' ', "3 of 10 files, 30 %".Length) + "\r", said.ToString());
    }

    [Fact]
    public void It_makes_room_for_what_is_said()
    {
        using (var line = new ProgressLine(Terminal(true), 10, clock))
        {
            clock.Now += 600;
            line.Step();
            line.Clear();
            line.Clear();
            said.Write("a finding\n");
        }
        Assert.Equal("\r1 of 10 files, 10 %\r" + new string(' ', "1 of 10 files, 10 %".Length) + "\ra finding\n", said.ToString());
    }

    /// <inheritdoc/>
    public void Dispose() => said.Dispose();

    private Terminal Terminal(bool shows) => new(said, said, () => new MemoryStream(), false) { ShowsProgress = shows };

    // Milliseconds.
    private sealed class Clock : TimeProvider
    {
        public long Now { get; set; } = 1;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => Now;
    }
}

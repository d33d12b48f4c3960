// The fuzzer itself: it finds what breaks, shrinks it, keeps it so that it can be read again, and lets no noise on the wire pass.
using System.Text;
using ChordLang.Fuzz.Running;
using ChordLang.Fuzz.Targets;
using ChordLang.Testing;
using CsCheck;

namespace ChordLang.Fuzz.Tests;

public sealed class RunningTests
{
    [Fact]
    public void A_kept_case_is_read_as_it_was() =>
        Gen.Select(Gen.String, Gen.String).Sample((trouble, input) =>
        {
            var kept = new FoundCase("parse", trouble, input + "\uD834\u001E\\n\n\r");
            Assert.Equal(kept with { Trouble = trouble.Split('\n')[0] }, FoundCase.Parse(kept.ToString()));
        });

    [Fact]
    public void Of_a_long_input_that_breaks_the_part_is_left_that_breaks_it() =>
        Assert.Equal("!?", Shrinker.Shortest(new string('a', 300) + "!" + new string('b', 200) + "?" + new string('c', 77), t => t.Contains('!') && t.Contains('?'), TimeSpan.FromMinutes(1)));

    [Fact]
    public void What_breaks_is_found_shrunk_and_kept()
    {
        var folder = Directory.CreateTempSubdirectory("chordlang-fuzz-").FullName;
        try
        {
            using var progress = new Progress(Path.Combine(folder, "state"));
            var target = new Target("parse", "no x", 1, d => new string('a', d.Next(5)) + (d.Next(4) == 0 ? "x" : "") + "b", t => t.Contains('x') ? "an x" : null);
            new Worker(target, 7, Path.Combine(folder, "found"), progress).Run(100, TimeSpan.FromMinutes(1));
            Assert.Equal(100, progress.Cases);
            Assert.InRange(progress.Broken, 1, 99);
            Assert.Equal(new("parse", "an x", "x"), Assert.Single(FoundCase.Read(Path.Combine(folder, "found"))));
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void A_crash_is_a_fault() =>
        Assert.StartsWith("crashed: System.InvalidOperationException", new Target("parse", "", 1, _ => "", _ => throw new InvalidOperationException()).Try(""), StringComparison.Ordinal);

    [Theory]
    [InlineData("Content-Length: 2\r\n\r\n{}", null)]
    [InlineData("\uFEFFContent-Length: 2\r\n\r\n{}", "no frame")]
    [InlineData("hello\nContent-Length: 2\r\n\r\n{}", "no frame")]
    [InlineData("Content-Length: 2\r\n\r\n{}log", "no frame")]
    [InlineData("Content-Length: 3\r\n\r\n{}", "ends after 2")]
    public async Task Only_frames_pass_for_frames(string wire, string? trouble)
    {
        var frames = new FrameReader(new MemoryStream(Encoding.UTF8.GetBytes(wire)));
        while (await frames.Next() is { } frame)
            Assert.Equal("{}", frame);
        Assert.Equal(trouble is null, frames.Trouble is null);
        Assert.Contains(trouble ?? "", frames.Trouble ?? "", StringComparison.Ordinal);
    }

    // A few cases of each, the same on every run; the fuzzer itself does the rest.
    [Fact]
    public void Every_target_makes_inputs_that_hold()
    {
        foreach (var target in Target.All)
        {
            var dice = new Dice(1);
            for (var i = 0; i < 12; i++)
                Assert.Null(target.Try(i % 3 == 2 ? target.Damage(dice, target.Make(dice), target.Make(dice)) : target.Make(dice)));
        }
    }
}

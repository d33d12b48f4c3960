// Where no place is found for notes, there is none; where one is found, a hand holds it.
using System.Globalization;
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using ChordLang.Fretboard.Voicings;

namespace ChordLang.Fretboard.Tests.Placement;

public sealed class TogetherTests
{
    [Theory]
    [InlineData("40 43 58", "0 1")] // E2 and G2: in standard tuning both lie on the lowest string alone (common practice)
    [InlineData("40 55 56 57 41", "0 4")]
    [InlineData("48 52 53 55 57", "0 1 2 3 4")] // five notes, all below the open B
    [InlineData("40 45 50 55 59 64 69", "0 1 2 3 4 5 6")]
    public void Notes_with_too_few_strings_between_them_are_named(string midi, string clash)
    {
        var none = Ask(midi);
        Assert.NotNull(none);
        Assert.Equal(clash, string.Join(' ', none.Clash));
        Assert.Null(none.Nearest);
    }

    // F2 lies at fret 1 of the lowest string alone, B5 at fret 19 of the highest alone: by the rule of twelve-tone equal temperament 395 mm apart.
    [Fact]
    public void The_place_that_comes_nearest_is_told_with_its_millimetres()
    {
        var none = Ask("41 83");
        Assert.Equal("1-x-x-x-x-19", none?.Nearest?.ToString());
        Assert.Equal(FingeringObstacle.TooFar, none?.None?.Obstacle);
        Assert.Equal(647.7 * (Math.Pow(2, -1 / 12.0) - Math.Pow(2, -19 / 12.0)), none?.None?.Limiting?.Millimetres ?? 0, 3);
        Assert.Equal("0 1", string.Join(' ', none!.Without));
    }

    [Fact]
    public void A_string_that_is_given_is_kept()
    {
        Assert.Null(Together.NoPlace(Neck.Standard, Hand.Medium, [new(60, 1), new(64, 1)]));
        Assert.NotNull(Together.NoPlace(Neck.Standard, Hand.Medium, [new(60, 1, 6), new(64, 1, 1), new(65, 1, 2), new(57, 1, 3)]));
    }

    [Fact]
    public void A_note_that_the_neck_does_not_have_is_another_matter() => Assert.Null(Ask("20 60"));

    // Grips of two to five notes all over the neck: the answer agrees with trying all strings here, one number after the other.
    [Fact]
    public void It_agrees_with_a_plain_trial_of_all_strings()
    {
        var none = 0;
        for (var n = 0; n < 150; n++)
        {
            // Strides without a common divisor with the width of the range spread the notes over the neck.
            var midi = Enumerable.Range(0, 2 + n % 4).Select(i => 40 + (7 * n + (11 + n % 13) * i + n * n) % 41).Distinct().ToArray();
            var held = Tried(midi);
            Assert.Equal(held, Together.NoPlace(Neck.Standard, Hand.Medium, [.. midi.Select(m => new NoteToPlace(m, 1))]) is null);
            none += held ? 0 : 1;
        }
        Assert.InRange(none, 15, 135);
    }

    private static NoPlaceTogether? Ask(string midi) =>
        Together.NoPlace(Neck.Standard, Hand.Medium, [.. midi.Split(' ').Select(m => new NoteToPlace(int.Parse(m, CultureInfo.InvariantCulture), 1))]);

    private static bool Tried(int[] midi)
    {
        var all = (int)Math.Pow(6, midi.Length);
        for (var code = 0; code < all; code++)
        {
            var slots = new int?[6];
            var (rest, fits) = (code, true);
            foreach (var m in midi)
            {
                var s = rest % 6 + 1;
                rest /= 6;
                fits &= slots[^s] is null && Neck.Standard.FretOf(s, m) is not null;
                slots[^s] = Neck.Standard.FretOf(s, m);
            }
            if (fits && FingeringSearch.Best(Neck.Standard, Hand.Medium, new Voicing([.. slots])).Best is not null)
                return true;
        }
        return false;
    }
}

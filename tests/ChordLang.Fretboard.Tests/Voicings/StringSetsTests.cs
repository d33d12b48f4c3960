// Voicings on neighbouring sets of strings: the same pitches, holdable, and back again.
using ChordLang.Fretboard.Fingering;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Voicings;
using CsCheck;

namespace ChordLang.Fretboard.Tests.Voicings;

public class StringSetsTests
{
    // Worked out by the tuning: a fourth between neighbours (5 frets), a third between strings 3 and 2 (4 frets).
    [Theory]
    [InlineData("x-x-10-9-8-8", Across.ToLowerStrings, "x-15-14-12-13-x")]
    [InlineData("x-8-7-5-5-x", Across.ToHigherStrings, "x-x-3-2-1-0")]
    [InlineData("x-x-5-5-5-5", Across.ToLowerStrings, "x-10-10-9-10-x")]
    [InlineData("x-3-2-0-1-0", Across.ToHigherStrings, null)]
    [InlineData("x-x-x-x-5-5", Across.ToLowerStrings, "x-x-x-9-10-x")]
    [InlineData("3-x-3-4-x-x", Across.ToLowerStrings, null)]
    public void Each_note_goes_one_string_over(string from, Across across, string? to) =>
        Assert.Equal(to, StringSets.Next(Neck.Standard, Hand.Medium, Grips.Voicing(from), across)?.Voicing.ToString());

    [Fact]
    public void Strings_that_sound_beside_it_are_left_alone()
    {
        var next = StringSets.Next(Neck.Standard, Hand.Medium, Grips.Voicing("x-x-x-x-5-5"), Across.ToLowerStrings, Grips.Voicing("x-0-x-0-x-x"));
        Assert.True(next is null || next.Voicing[3] is null);
    }

    [Fact]
    public void Pitches_stay_and_the_hand_can_hold_it() =>
        (from slots in Gen.Select(Gen.Bool, Gen.Int[0, 15], (played, fret) => played ? (int?)fret : null).Array[6]
         from up in Gen.Bool
         select (slots, up)).Sample(x =>
        {
            var voicing = new Voicing([.. x.slots]);
            var next = StringSets.Next(Neck.Standard, Hand.Medium, voicing, x.up ? Across.ToHigherStrings : Across.ToLowerStrings);
            return next is null || Pitches(voicing).SequenceEqual(Pitches(next.Voicing)) && FingeringSearch.Best(Neck.Standard, Hand.Medium, next.Voicing).Best is not null
                && next.Strings.All(s => x.up ? s.Value <= s.Key : s.Value >= s.Key);
        }, iter: 2000);

    private static IEnumerable<int> Pitches(Voicing voicing) => voicing.Played.Select(s => Neck.Standard.Midi(s, voicing[s]!.Value)).Order();
}

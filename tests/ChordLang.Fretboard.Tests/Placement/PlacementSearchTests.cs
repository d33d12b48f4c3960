// Placements of passages: exact pitches, one note a string, what is given and what rings is kept.
using System.Collections.Immutable;
using ChordLang.Fretboard.Hands;
using ChordLang.Fretboard.Necks;
using ChordLang.Fretboard.Placement;
using CsCheck;

namespace ChordLang.Fretboard.Tests.Placement;

public class PlacementSearchTests
{
    // Common practice: the open-position C major chord.
    [Fact]
    public void An_open_chord_is_placed_in_open_position() =>
        Assert.Equal("5:3 4:2 3:0 2:1 1:0", Places(new OnsetToPlace(0, [.. new[] { 48, 52, 55, 60, 64 }.Select(m => new NoteToPlace(m, 1))])));

    [Fact]
    public void A_given_string_is_kept() =>
        Assert.Equal("3:9", Places(new OnsetToPlace(0, [new(64, 1, 3)])));

    // The same search that the checks ask says what a hand reaches: three fingers on fret 1, parted by open strings, and one on fret 3, are 67 mm apart by the
    // luthiers' rule, which a small hand does not reach from the third finger to the little one.
    [Fact]
    public void A_hand_that_does_not_reach_is_told_whatever_the_frets()
    {
        OnsetToPlace notes = new(0, [new(43, 1, 6), new(46, 1, 5), new(50, 1, 4), new(56, 1, 3), new(59, 1, 2), new(65, 1, 1)]);
        Assert.Equal([true, false], new[] { Hand.Small, Hand.Medium }.Select(h => PlacementSearch.Best(Neck.Standard, h, [notes])[0].Onsets[0].Unheld));
    }

    // A hammer-on, a pull-off and a slide stay on their string (common practice); struck anew, the same notes may lie elsewhere.
    [Theory]
    [InlineData(64, 65)]
    [InlineData(55, 57)]
    [InlineData(59, 55)]
    public void A_slurred_note_goes_to_the_string_of_the_note_before(int from, int to)
    {
        var placed = PlacementSearch.Best(Neck.Standard, Hand.Medium, [new(0, [new(from, 1)]), new(1, [new(to, 1, null, from)])])[0].Onsets;
        Assert.Equal(placed[0].Notes[0].String, placed[1].Notes[0].String);
    }

    [Fact]
    public void A_ringing_string_is_left_alone() // D4 could follow on string 2, but B3 rings there, open
        => Assert.Equal("2:0 3:7", Places(new OnsetToPlace(0, [new(59, 4, 2)]), new OnsetToPlace(1, [new(62, 1)])));

    [Fact]
    public void A_pitch_off_the_neck_has_no_place_and_harms_no_other()
    {
        var best = Assert.Single(PlacementSearch.Best(Neck.Standard, Hand.Medium, [new(0, [new(20, 1)]), new(1, [new(64, 1)])]));
        Assert.Null(best.Onsets[0].Notes[0].String);
        Assert.NotNull(best.Onsets[1].Notes[0].String);
    }

    [Fact]
    public void Parts_add_up_to_the_cost_and_alternatives_differ()
    {
        var found = PlacementSearch.Best(Neck.Standard, Hand.Medium, [new(0, [new(60, 1)]), new(1, [new(64, 1)]), new(2, [new(67, 1)])], 4);
        Assert.Equal(4, found.Length);
        Assert.All(found, p => Assert.Equal(p.Cost, p.Parts.Sum(c => c.Cost), 9));
        Assert.Equal(4, found.Select(p => string.Join(' ', p.Onsets.SelectMany(o => o.Notes))).Distinct().Count());
        Assert.Equal(found.OrderBy(p => p.Cost).Select(p => p.Cost), found.Select(p => p.Cost));
    }

    [Fact]
    public void The_offsets_of_the_table_fit_its_rows() =>
        Assert.Equal([64, 6, 24, 8, 6, 5, 18, 41, 6, 1, 12, 154, 462, 51, 210, 2, 1], PlacementWeights.Table.Select(r => r.Weights.Length));

    [Fact]
    public void Pitches_are_exact_and_no_two_notes_of_an_onset_share_a_string() =>
        (from chords in Gen.Int[40, 80].Array[1, 5].Array[1, 12]
         from length in Gen.Double[0.25, 3]
         select (chords, length)).Sample(x =>
        {
            var onsets = x.chords.Select((c, i) => new OnsetToPlace(i, [.. c.Select(m => new NoteToPlace(m, x.length))])).ToImmutableArray();
            var best = PlacementSearch.Best(Neck.Standard, Hand.Medium, onsets)[0];
            return best.Onsets.Zip(x.chords).All(o =>
                o.First.Notes.Select(n => n.Midi).SequenceEqual(o.Second)
                && o.First.Notes.All(n => n.String is null || Neck.Standard.Midi(n.String.Value, n.Fret!.Value) == n.Midi)
                && o.First.Notes.Where(n => n.String is not null).Select(n => n.String).Distinct().Count() == o.First.Notes.Count(n => n.String is not null));
        }, iter: 300);

    [Theory]
    [InlineData(5, "1:5 1:7 1:8 2:8 2:6")]
    [InlineData(10, "2:10 2:12 2:13 3:12 3:10")]
    public void A_written_position_is_kept(int position, string places) => // A B C G F, worked out by the tuning; one finger a fret (common practice)
        Assert.Equal(places, Places([.. new[] { 69, 71, 72, 67, 65 }.Select((m, i) => new OnsetToPlace(i, [new(m, 1)], position))]));

    [Fact]
    public void Other_placements_differ_keep_what_is_given_and_cost_more_each()
    {
        var onsets = new[] { 64, 67, 69, 71, 72, 71, 69, 67 }.Select((m, i) => new OnsetToPlace(i / 2.0, [new(m, 0.5, i == 3 ? 2 : null)])).ToImmutableArray();
        var run = PlacementRun.Of(Neck.Standard, Hand.Medium, onsets);
        var others = PlacementSearch.Alternatives(run, 2, 4).Near;
        Assert.Equal(3, others.Length);
        Assert.Equal(4, others.Select(Key).Append(string.Join(' ', run.Best()[0].Onsets.Skip(2).Take(4).SelectMany(o => o.Notes))).Distinct().Count());
        Assert.All(others, o => Assert.Equal(2, o.Onsets[1].Notes[0].String));
        Assert.Equal(others.OrderBy(o => o.Cost).Select(o => o.Cost), others.Select(o => o.Cost));
        Assert.All(others, o => Assert.Equal([69, 71, 72, 71], o.Onsets.Select(x => Neck.Standard.Midi(x.Notes[0].String!.Value, x.Notes[0].Fret!.Value))));

        static string Key(ChordLang.Fretboard.Placement.Placement p) => string.Join(' ', p.Onsets.SelectMany(o => o.Notes));
    }

    [Fact]
    public void Alternatives_that_cost_out_of_proportion_are_left_out_and_counted()
    {
        // The low G lies at fret 3 alone: whoever plays the B above it in another position lets it go, or stretches.
        var run = PlacementRun.Of(Neck.Standard, Hand.Medium, [new(0, [new(43, 4), new(59, 4), new(62, 4)]), new(1, [new(67, 3)])]);
        var others = PlacementSearch.Alternatives(run, 0, 1);
        Assert.Empty(others.Near);
        Assert.True(others.LeftOut > 0);
    }

    private static string Places(params OnsetToPlace[] onsets) =>
        string.Join(' ', PlacementSearch.Best(Neck.Standard, Hand.Medium, [.. onsets])[0].Onsets.SelectMany(o => o.Notes).Select(n => $"{n.String}:{n.Fret}"));
}

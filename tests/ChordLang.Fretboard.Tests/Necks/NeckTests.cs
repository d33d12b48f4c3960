// Fret positions against the published luthiers' rule.
using ChordLang.Fretboard.Necks;

namespace ChordLang.Fretboard.Tests.Necks;

public class NeckTests
{
    private const double Inch = 25.4;

    // Worked values of the rule for a 25.5 in scale: fret 1 at 1.4312 in, the octave at half the string.
    [Theory]
    [InlineData(1, 1.4312)]
    [InlineData(5, 6.3966)]
    [InlineData(7, 8.4808)]
    [InlineData(12, 12.75)]
    [InlineData(24, 19.125)]
    public void A_fret_lies_where_the_rule_puts_it(int fret, double inches) =>
        Assert.Equal(inches, Neck.Standard.Position(fret) / Inch, 0.00006);

    // A luthier's table for a 25 in scale, distance from fret to bridge: 599.360, 475.712, 423.812 mm.
    [Theory]
    [InlineData(1, 599.360)]
    [InlineData(5, 475.712)]
    [InlineData(7, 423.812)]
    public void The_rest_of_the_string_agrees_with_a_luthiers_table(int fret, double toBridge)
    {
        var neck = Neck.Standard with { ScaleLength = 25 * Inch };
        Assert.Equal(toBridge, neck.ScaleLength - neck.Position(fret), 0.005);
    }

    // Luthiers' divisor 17.817154: each step is that part of what remains. The old rule of 18 would fail here.
    [Fact]
    public void Each_step_is_the_same_part_of_what_remains()
    {
        var neck = Neck.Standard;
        for (var fret = 1; fret <= 24; fret++)
            Assert.Equal((neck.ScaleLength - neck.Position(fret - 1)) / 17.817154, neck.Position(fret) - neck.Position(fret - 1), 0.0001);
    }

    [Fact]
    public void Frets_count_from_the_capo()
    {
        var capo = Neck.Standard with { Capo = 2 };
        Assert.Equal(Neck.Standard.Position(5), capo.Position(3), 9);
        Assert.Equal(20, capo.HighestFret);
        Assert.Equal(66, capo.Midi(1, 0));
        Assert.Equal(3, capo.FretOf(1, 69));
        Assert.Null(capo.FretOf(1, 65));
    }
}

// Lengths as note values, by common practice of notation; and that no time is lost.
using ChordLang.Grammar.Syntax;
using ChordLang.Interchange.MusicXml;
using CsCheck;

namespace ChordLang.Interchange.Tests.MusicXml;

public sealed class NoteValuesTests
{
    private static readonly Rational Quarter = Rational.Of(1, 4);

    [Theory]
    [InlineData("0/1", "1/1", "whole")]
    [InlineData("0/1", "3/4", "half.")]
    [InlineData("1/8", "3/8", "quarter")]
    [InlineData("0/1", "5/8", "half eighth")]
    [InlineData("0/1", "7/16", "quarter. 16th")]
    [InlineData("0/1", "1/12", "eighth 3:2")]
    [InlineData("1/12", "1/6", "eighth 3:2")]
    [InlineData("1/6", "1/2", "eighth 3:2 quarter")]
    [InlineData("0/1", "1/20", "16th 5:4")]
    [InlineData("1/12", "1/4", "quarter 3:2")]
    public void A_length_is_written_as_players_read_it(string from, string to, string values) =>
        Assert.Equal(values, string.Join(' ', NoteValues.Split(Read(from), Read(to), Quarter)
            .Select(v => v.Type + new string('.', v.Dots) + (v.InTuplet ? $" {v.Actual}:{v.Normal}" : ""))));

    [Fact]
    public void Values_fill_the_time_without_gap() =>
        Gen.Select(Gen.Int[0, 95], Gen.Int[1, 95], Gen.Int[2, 24].Where(d => d is not (11 or 13 or 17 or 19 or 22 or 23))).Sample((from, length, d) =>
        {
            var (start, end) = (Rational.Of(from, 4 * d), Rational.Of(from + length, 4 * d));
            var at = start;
            foreach (var v in NoteValues.Split(start, end, Quarter))
            {
                Assert.Equal(at, v.Start);
                at += v.Length;
            }
            Assert.Equal(end, at);
        });

    private static Rational Read(string text) => text.Split('/') is [var n, var d] ? Rational.Of(int.Parse(n), int.Parse(d)) : Rational.Zero;
}

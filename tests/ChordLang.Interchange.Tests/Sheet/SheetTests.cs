// A sheet holds what the model holds: every number on its string, every pitch on the staff, every bar once, every chord where it stands.
using System.Globalization;
using System.Xml.Linq;
using ChordLang.Interchange.Sheet;
using ChordLang.Testing;

namespace ChordLang.Interchange.Tests.Sheet;

public sealed class SheetTests
{
    public static TheoryData<string> Samples => [.. Drawn.Samples];

    [Theory]
    [MemberData(nameof(Samples))]
    public void All_numbers_of_the_tablature_are_those_of_the_model(string sample)
    {
        var music = Drawn.Sample(sample);
        foreach (var staves in (Staves[])[Staves.Both, Staves.Tab])
        {
            var numbers = Drawn.Svg(music, new() { Staves = staves }).With("data-fret").Where(e => e.Attribute("data-grace") is null).ToList();
            Assert.All(numbers, n => Assert.Equal(n.Value == "×" ? n.Value : n.Of("data-fret"), n.Value));
            Assert.Equal(Drawn.Struck(music.Piece, music.Placed),
                numbers.Select(n => $"{n.Of("data-bar")} {n.Of("data-count")} {n.Of("data-string")}.{n.Of("data-fret")} {n.Of("data-pitch")}").Order(StringComparer.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void All_heads_of_the_staff_are_those_of_the_model(string sample)
    {
        var music = Drawn.Sample(sample);
        var heads = Drawn.Svg(music, new() { Staves = Staves.Staff }).With("data-pitch").Where(e => e.Attribute("data-grace") is null);
        Assert.Equal(Drawn.Struck(music.Piece, music.Placed).Select(n => string.Join(' ', n.Split(' ').Where((_, i) => i != 2))).Order(StringComparer.Ordinal),
            heads.Select(n => $"{n.Of("data-bar")} {n.Of("data-count")} {n.Of("data-pitch")}").Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_bar_stands_on_one_line_and_every_line_has_its_words(string sample)
    {
        var (piece, placed) = Drawn.Sample(sample);
        var systems = SheetWriter.Systems(piece, placed, new());
        Assert.Equal(piece.Bars.Select(b => b.Index), systems.SelectMany(s => Enumerable.Range(s.FirstBar, s.LastBar - s.FirstBar + 1)));
        foreach (var system in systems)
            for (var bar = system.FirstBar; bar <= system.LastBar; bar++)
                Assert.Contains(system.Spoken, s => s.StartsWith(piece.Bars[bar].Number == 0 ? "Pickup" : $"Bar {piece.Bars[bar].Number}", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_reference_has_its_sign_and_every_place_its_text(string sample)
    {
        var music = Drawn.Sample(sample);
        var svg = Drawn.Svg(music);
        var known = svg.With("id").Select(e => "#" + e.Of("id")).ToHashSet();
        Assert.All(svg.Descendants().Where(e => e.Name.LocalName == "use"), u => Assert.Contains(u.Of("href"), known));
        var source = music.Piece.Tree.Source;
        foreach (var chord in svg.With("data-symbol").Where(c => c.Of("data-symbol") != "N.C."))
            Assert.Equal(chord.Of("data-symbol"), source[new(Number(chord, "data-from"), Number(chord, "data-to") - Number(chord, "data-from"))]);
        foreach (var note in svg.With("data-pitch"))
            Assert.InRange(Number(note, "data-to"), Number(note, "data-from") + 1, source.Text.Length);
    }

    public static TheoryData<string> Texts => [.. Repository.Samples()];

    [Theory]
    [MemberData(nameof(Texts))]
    public void Any_text_has_a_sheet_however_broken(string sample)
    {
        var text = Repository.Text(sample);
        foreach (var part in Enumerable.Range(1, 9).Select(i => text[..(text.Length * i / 9)]).Append(text.Replace("1 ", "9 ", StringComparison.Ordinal)).Append(text.Replace("meter   ", "meter   7/16 ", StringComparison.Ordinal)))
        {
            var (piece, placed) = Drawn.Text(part);
            foreach (var staves in Enum.GetValues<Staves>())
                Assert.EndsWith("</html>\n", SheetPage.Html(piece, placed, new() { Staves = staves, Diagrams = Diagrams.Every }), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("pickup from 5\n| C\n    1 C4\n| D\n    1 D4\n")]
    [InlineData("meter 2/2\n| C   2+1/7 D\n    1 to 2+6/7 C4 D E F G A B\n    1+1/3 C3 ring over   2 tied\n")]
    [InlineData("strings C2 G2 D3 A3\n| C\n    1 0-2-x-5 slide from 3@1 grace D4 bend half vibrato harmonic dead pluck p fermata roll accent short unsure\n")]
    [InlineData("| %\n| %\nrepeat 2\nending 1\nend\nend\nsegno\ncoda\nfine\n")]
    [InlineData("| C\n    1 C9 ring   2 C0   3 tied   4 tied\n| C\n    1 tied\n")]
    public void Odd_texts_have_sheets_too(string text)
    {
        var music = Drawn.Text(text);
        foreach (var staves in Enum.GetValues<Staves>())
            Assert.NotNull(Drawn.Svg(music, new() { Staves = staves, Large = true }).Root);
    }

    [Fact]
    public void Lines_are_about_equally_full()
    {
        var lines = Drawn.Samples.SelectMany(s => Drawn.Sample(s) is var m ? SheetWriter.Systems(m.Piece, m.Placed, new()) : []).ToList();
        // Engravers call a line loose when its spaces grow by half (from memory); one in twenty may.
        Assert.True(lines.Count(l => l.Stretch > 1.5) <= lines.Count / 20, string.Join(' ', lines.Select(l => l.Stretch.ToString("0.00", CultureInfo.InvariantCulture))));
        Assert.All(lines, l => Assert.True(l.Stretch >= 0.86));
    }

    [Fact]
    public void A_bar_is_not_left_alone_behind_a_full_line()
    {
        var (piece, placed) = Drawn.Sample("samples/valid/five-gates.chl");
        Assert.Equal([2, 2, 4, 1], SheetWriter.Systems(piece, placed, new()).Select(s => s.LastBar - s.FirstBar + 1));
        // Over all samples, where a section is longer than a bar.
        var lines = Drawn.Samples.SelectMany(s => Drawn.Sample(s) is var m ? SheetWriter.Systems(m.Piece, m.Placed, new()).Select(l => (Sample: s, Line: l, Starts: m.Piece.Sections.Any(x => x.FirstBar == l.FirstBar) || l.FirstBar == 0)) : []).ToList();
        Assert.True(lines.Count(l => !l.Starts && l.Line.FirstBar == l.Line.LastBar) <= lines.Count / 20, string.Join('\n', lines.Where(l => !l.Starts && l.Line.FirstBar == l.Line.LastBar).Select(l => $"{l.Sample} {l.Line.FirstBar}")));
    }

    [Fact]
    public void Large_print_has_fewer_bars_a_line()
    {
        var (piece, placed) = Drawn.Sample("samples/valid/low-tide-letter.chl");
        Assert.True(SheetWriter.Systems(piece, placed, new() { Large = true }).Length > SheetWriter.Systems(piece, placed, new()).Length);
    }

    [Fact]
    public void A_line_of_chords_alone_has_no_empty_strings()
    {
        var music = Drawn.Text("meter 4/4\n\n| C   3 F\n| G\n\nsection B\n\n| C\n    1 x-3-2-0-1-0\n");
        var lines = SheetWriter.Systems(music.Piece, music.Placed, new());
        Assert.DoesNotContain("class=\"st\"", lines[0].Drawing, StringComparison.Ordinal);
        Assert.Contains("class=\"st\"", lines[1].Drawing, StringComparison.Ordinal);
        Assert.Equal(8, lines[0].Drawing.Split("#clg-noteheadSlash").Length - 1);     // a stroke a count
    }

    [Fact]
    public void The_staff_alone_still_tells_of_bends() =>
        Assert.Contains(Drawn.Svg(Drawn.Text("| Am7\n    1 8@2 bend full   3 7@3 hammer\n"), new() { Staves = Staves.Staff }).Descendants(), e => e.Value == "bend full");

    [Fact]
    public void The_skeleton_line_has_a_dot_for_each_chord_that_stays()
    {
        var music = Drawn.Sample("samples/valid/third-floor-blues.chl");
        var stays = Drawn.Svg(music).With("data-symbol").Select(c => Number(c, "data-from")).Where((_, i) => i % 3 == 0).ToHashSet();
        Assert.Equal(stays.Count, Drawn.Svg(music, new() { Skeleton = stays }).Descendants().Count(e => e.Of("class") == "bone"));
        Assert.DoesNotContain(Drawn.Svg(music).Descendants(), e => e.Of("class") == "bone");
    }

    // What is itself again takes a sign out of courtesy: in the bar after, behind a change of key, and where the form leads elsewhere than to the next bar (common practice).
    [Theory]
    [InlineData("| C\n    1 F#4\n| C\n    1 F4  2 F4", "Sharp Natural")]
    [InlineData("| C\n    1 F#4  3 F4\n| C\n    1 F4", "Sharp Natural")]
    [InlineData("| C\n    1 F#4\n| C\n    1 F5", "Sharp")]
    [InlineData("| C\n    1 F#4\n| C\n    1 G4\n| C\n    1 F4", "Sharp")]
    [InlineData("key G major\n| G\n    1 F#4\nkey C major\n| C\n    1 F4", "Natural")]
    [InlineData("repeat 2\n| C\n    1 F4\n| C\n    1 F#4\nend\n| C\n    1 G4", "Natural Sharp")]
    [InlineData("repeat 2\n| C\n    1 F#4\nending 1\n| C\n    1 G4\nending 2\n| C\n    1 F4\nend", "Sharp Natural")]
    public void What_is_itself_again_takes_a_sign_out_of_courtesy(string text, string signs)
    {
        var notes = Drawn.Svg(Drawn.Text(text)).Descendants().Where(e => e.Of("class") == "nt").SelectMany(g => g.Descendants());
        Assert.Equal(signs, string.Join(' ', notes.Select(e => e.Of("href")).Where(h => h.StartsWith("#clg-accidental", StringComparison.Ordinal)).Select(h => h["#clg-accidental".Length..])));
    }

    [Theory]
    // Accidentals hold to the bar line and for their own octave; the signature's own need none (common practice).
    [InlineData("key G major", "1 F#4   2 G4", "")]
    [InlineData("key G major", "1 F4   2 F4   3 F#4", "accidentalNatural accidentalSharp")]
    [InlineData("key C major", "1 Bb3   2 Bb3   3 Bb4", "accidentalFlat accidentalFlat")]
    [InlineData("key F major", "1 Bb3   2 B3   3 Bb3", "accidentalFlat accidentalNatural")]
    [InlineData("key D minor", "1 C#4   2 tied   3 C#4", "accidentalSharp")]
    public void Accidentals_go_by_the_bar(string key, string row, string signs)
    {
        var svg = Drawn.Svg(Drawn.Text($"{key}\nmeter 4/4\n\n| C\n    {row}\n"), new() { Staves = Staves.Staff, Diagrams = Diagrams.None });
        var notes = svg.Descendants().Single(e => e.Of("class") == "nt");
        Assert.Equal(signs, string.Join(' ', notes.Descendants().Select(e => e.Of("href").Replace("#clg-", "", StringComparison.Ordinal)).Where(h => h.StartsWith("accidental", StringComparison.Ordinal)).Order(StringComparer.Ordinal)));
    }

    [Theory]
    // Values that hide a beat are cut and tied: off the beat at the next beat, in compound meters at every beat (common practice).
    [InlineData("meter 4/4", "1 C4   1& D4   3 E4", "8 8 4 2")]
    [InlineData("meter 4/4", "1 C4   1& D4   2& E4   3 F4", "8 4 8 2")]
    [InlineData("meter 4/4", "1 C4   2 D4", "4 2.")]
    [InlineData("meter 6/8", "1 C4   5 D4", "4. 8 4")]
    [InlineData("meter 6/8", "1 C4", "2.")]
    [InlineData("meter 3/4", "1 C4   1trip D4   1let E4   2 F4", "8 8 8 2")]
    public void Values_show_the_beats(string meter, string row, string values)
    {
        var (piece, placed) = Drawn.Text($"{meter}\n\n| C\n    {row}\n");
        var drawing = SheetWriter.Systems(piece, placed, new() { Staves = Staves.Staff })[0];
        var notes = XElement.Parse($"<svg>{drawing.Drawing}</svg>").Descendants().Single(e => e.Attribute("class")?.Value == "nt");
        var heads = notes.Descendants("use").Where(u => u.Of("href").Contains("notehead", StringComparison.Ordinal)).ToList();
        Assert.Equal(values.Split(' ').Length, heads.Count);
        Assert.Equal(values.Split(' ').Count(v => v[0] == '2'), heads.Count(h => h.Of("href").EndsWith("Half", StringComparison.Ordinal)));
        Assert.Equal(values.Count(v => v == '.'), notes.Descendants("circle").Count());
    }

    [Fact]
    public void A_small_drawing_is_what_it_was() => Snapshots.Match(
        Drawn.Svg(Drawn.Text("title Two Bars\nkey G major\nmeter 4/4\n\n| Gmaj7\n    top:  2& D4   3 B3 ring   4 tied\n    low:  1 3-x-4-4-3-x fermata roll\n| E7b9   3 Am7/E\n    1 x-7-6-7-x-x accent   2 5@3 hammer   2& 7@3 slide   3 12@3 harmonic   4 rest\n"))
            .ToString().Replace("\r\n", "\n", StringComparison.Ordinal), "small-sheet.svg");

    private static int Number(XElement element, string attribute) => int.Parse(element.Of(attribute), CultureInfo.InvariantCulture);
}

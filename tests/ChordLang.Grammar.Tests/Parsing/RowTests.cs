// Rows: what is read from them, and the one finding that each slip gives.
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Grammar.Tests.Parsing;

public class RowTests
{
    [Theory]
    [InlineData("1 D4", "0 D0/4@")]
    [InlineData("2& Eb4  3e F##4  4a Abb-1", "3/2 E-1/4@; 9/4 F2/4@; 15/4 A-2/-1@")]
    [InlineData("2trip D4  2let E4  3+2/5 F4", "4/3 D0/4@; 5/3 E0/4@; 12/5 F0/4@")]
    [InlineData("1 C4+E4@2+8@1", "0 C0/4@+E0/4@2+8/@1")]
    [InlineData("1 x-3-5-4-5-x  2 x35453  3 320003  4 10-x-12", "0 x,3,5,4,5,x; 1 x,3,5,4,5,3; 2 3,2,0,0,0,3; 3 10,x,12")]
    [InlineData("1 low-drop  2 low-drop+7  3 low-drop at 8  4 nine-2", "0 low-drop^0@; 1 low-drop^7@; 2 low-drop^0@8; 3 nine-2^0@")]
    [InlineData("1 rest  2 tied  3 again", "0 RestSound; 1 TiedSound; 2 AgainSound")]
    [InlineData("1 G4 = 8@2", "0 (G0/4@)=(8/@2)")]
    [InlineData("1 C4+E4+A4 = x-x-x-5-5-5 ring", "0 (C0/4@+E0/4@+A0/4@)=(x,x,x,5,5,5) Ring@()")]
    [InlineData("1 to 2& D4 E F G", "0 D0/4@; 1/2 E0/4@; 1 F0/4@; 3/2 G0/4@")]
    [InlineData("1 C7", "0 C0/7@")]
    public void Sounds_are_read(string row, string meaning) => Assert.Equal("row  " + meaning, Read(row));

    [Theory]
    [InlineData("ring", "Ring@()")]
    [InlineData("ring until 3&", "RingUntil@(5/2)")]
    [InlineData("ring@1 until 3", "RingUntil@1(2)")]
    [InlineData("ring over", "RingOver@()")]
    [InlineData("short fermata accent roll slur", "Short@() Fermata@() Accent@() Roll@() Slur@()")]
    [InlineData("slide hammer pull", "Slide@() Hammer@() Pull@()")]
    [InlineData("slide from 7@1", "SlideFrom@(7/@1)")]
    [InlineData("slide from below", "SlideFrom@(below)")]
    [InlineData("grace D#4", "Grace@(D1/4@)")]
    [InlineData("bend half", "Bend@(half)")]
    [InlineData("bend to F#4", "BendTo@(F1/4@)")]
    [InlineData("vibrato harmonic palm-mute dead unsure", "Vibrato@() Harmonic@() PalmMute@() Dead@() Unsure@()")]
    [InlineData("finger 3 finger T", "Finger@(Third) Finger@(Thumb)")]
    [InlineData("fingers x-1-3-2-4-x", "Fingers@(None,First,Third,Second,Fourth,None)")]
    [InlineData("fingers T-x-0-1-1-x", "Fingers@(Thumb,None,Open,First,First,None)")]
    [InlineData("pluck p-i-m", "Pluck@(p-i-m)")]
    [InlineData("is C13(b9,#11)", "Is@(C:13(b9,#11)::C13(b9,#11))")]
    [InlineData("is C-7", "Is@(C:-7::C-7)")]
    [InlineData("is C7/Bb", "Is@(C:7:Bb:C7/Bb)")]
    [InlineData("is C6/9", "Is@(C:6/9::C6/9)")]
    [InlineData("is Bb5", "Is@(Bb:5::Bb5)")]
    [InlineData("is E♭Δ", "Is@(E♭:Δ::E♭Δ)")]
    [InlineData("p mp mf f", "Loudness@(p) Loudness@(mp) Loudness@(mf) Loudness@(f)")]
    [InlineData("\"let it | ring 2 D4\"", "Remark@(let it | ring 2 D4)")]
    public void Marks_are_read(string marks, string meaning) => Assert.Equal($"row  0 D0/4@ {meaning}", Read("1 D4 " + marks));

    [Fact]
    public void A_label_names_the_voice()
    {
        var row = Assert.IsType<RowLine>(Snippet.ShouldParseAsMarked("    top:  1 D4").Lines[0]);
        Assert.Equal("top", row.Voice);
        Assert.Equal("top:", row[row.Label!.Value]);
    }

    [Theory]
    // One slip, one finding; what stands behind it still means something.
    [InlineData("1 D4 rign 2 E4\n     ^^^^ text-unknown-mark: ring", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 D4 rign accent 2 E4\n     ^^^^ text-unknown-mark", "0 D0/4@ Accent@(); 1 E0/4@")]
    [InlineData("1 D4 E4 fermata 2 F4\n     ^^ text-missing-count: E4 has no count", "0 D0/4@; 1 F0/4@")]
    [InlineData("1 D4 (( )) 2 [ 3 F4\n     ^^ text-unreadable", "0 D0/4@; 2 F0/4@")]
    [InlineData("1 2 D4\n^ text-missing-sound", "0 nothing; 1 D0/4@")]
    [InlineData("1 D4 3&\n     ^^ text-missing-sound", "0 D0/4@; 5/2 nothing")]
    [InlineData("1 to 4 2 D4\n^^^^^^ text-missing-sound: run", "0 to 3 ; 1 D0/4@")]
    [InlineData("D4 2 E4\n^^ text-missing-count: 1 D4", "1 E0/4@")]
    [InlineData("1 ring 2 E4\n  ^^^^ text-missing-sound: is a mark", "0 nothing; 1 E0/4@")]
    [InlineData("123 D4 2 E4\n^^^ text-bad-count: two digits", "1 E0/4@")]
    [InlineData("1.5 D4 2 E4\n^^^ text-bad-count", "1 E0/4@")]
    [InlineData("0 D4 2 E4\n^ text-bad-count: begin with 1", "1 E0/4@")]
    [InlineData("1+5/4 D4 2 E4\n^^^^^ text-bad-count", "1 E0/4@")]
    [InlineData("1+100/300 D4 2 E4\n^^^^^^^^^ text-bad-count", "1 E0/4@")]
    [InlineData("1 D4 | 2 E4\n     ^ text-unreadable: one bar", "0 D0/4@")]
    [InlineData("1 D4 |\n     ^ text-unreadable: no bar line", "0 D0/4@")]
    [InlineData("1 Cmaj7 3 D4\n  ^^^^^ text-chord-in-row: chart line", "0 nothing; 2 D0/4@")]
    [InlineData("1 x-3-5-4-5-x = Cmaj7 2 D4\n              ^^^^^^^ text-chord-in-row: behind is", "0 x,3,5,4,5,x; 1 D0/4@")]
    [InlineData("1 x-3-5-4-5-x Cmaj7 2 D4\n              ^^^^^ text-chord-in-row: after is", "0 x,3,5,4,5,x; 1 D0/4@")]
    [InlineData("1 G4 is 8@2 2 D4\n     ^^^^^^ text-sound-as-name", "0 G0/4@; 1 D0/4@")]
    [InlineData("1 D4 \"let it ring 2 E4\n     ^ text-open-quote", "0 D0/4@ Remark@(let it ring); 1 E0/4@")]
    [InlineData("1 D4 \" rest“ 3+2/5 2 E4\n     ^ text-open-quote", "0 D0/4@ Remark@( rest“ 3+2/5); 1 E0/4@")]
    [InlineData("1 \"open 2 E4\n  ^ text-open-quote", "0 nothing; 1 E0/4@")]
    [InlineData("1 D4 ring until 2 E4\n                  ^^ text-missing-count", "0 D0/4@ RingUntil@(1)")]
    [InlineData("1 D4 ring until fermata 2 E4\n          ^^^^^ text-mark-operand", "0 D0/4@ Ring@() Fermata@(); 1 E0/4@")]
    [InlineData("1 D4 bend 2 E4\n     ^^^^ text-mark-operand: how far", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 D4 ring@0 2 E4\n     ^^^^^^ text-mark-operand: ring@1", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 D 2 E4\n  ^ text-octave", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 5/2 2 E4\n  ^^^ text-unreadable: 8@2", "0 nothing; 1 E0/4@")]
    [InlineData("1 D4 . . 2 E4\n     ^ text-unreadable: Dots", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 D4 :8 E4 2 E4\n     ^^ text-unreadable", "0 D0/4@; 1 E0/4@")]
    [InlineData("1 x-3-x 3fr 2 E4\n        ^^^ text-bad-count", "0 x,3,x; 1 E0/4@")]
    [InlineData("1 G4 = 8@2 = 3@1 2 E4\n           ^ text-missing-sound", "0 (G0/4@)=(8/@2); 1 E0/4@")]
    public void One_slip_gives_one_finding(string marked, string meaning)
    {
        var tree = Snippet.ShouldParseAsMarked(marked);
        Assert.Equal("row  " + meaning, Meaning.Of(tree)[0].Split(" !")[0]);
    }

    [Theory]
    [InlineData("1 x-3-5-4-5-x = Cmaj7", "1 x-3-5-4-5-x is Cmaj7", true)]
    [InlineData("1 x-3-5-4-5-x Cmaj7", "1 x-3-5-4-5-x is Cmaj7", true)]
    [InlineData("1 G4 is 8@2", "1 G4 = 8@2", false)]
    [InlineData("    1 Cmaj7 3 D7", "| 1 Cmaj7 3 D7", false)]
    [InlineData("1 D4 rign", "1 D4 ring", false)]
    [InlineData("1 D4 \"so  2 E4", "1 D4 \"so\"  2 E4", true)]
    [InlineData("2.5 D4", "2& D4", false)]
    [InlineData("2and D4", "2& D4", false)]
    [InlineData("D4", "1 D4", false)]
    [InlineData("1 F", "1 F4", false)]
    [InlineData("1 D4 wobbly", "1 D4 \"wobbly\"", true)]
    public void The_first_fix_leaves_no_finding(string line, string mended, bool safe)
    {
        var finding = Assert.Single(SyntaxTree.Parse(line).Lines[0].Findings);
        Assert.Equal(safe, finding.Fixes[0].Safe);
        var text = ChordLang.Grammar.Text.SourceText.From(line).With(finding.Fixes[0].Edits);
        Assert.Equal(mended, text.Text);
        Assert.Empty(SyntaxTree.Parse(text).Lines[0].Findings);
    }

    private static string Read(string row) => Assert.Single(Meaning.Of(Snippet.ShouldParseAsMarked(row)));
}

// What there is to read of a proposal, worked out only for the one that is looked at.
using ChordLang.Arrangement.Music;
using ChordLang.Features.Hovers;
using ChordLang.Features.Lessons;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Completions;

/// <summary>Explains proposals.</summary>
public static class ProposalText
{
    /// <summary>The explanation, or null where the few words beside it are all.</summary>
    /// <param name="lesson">The lesson.</param>
    /// <param name="kind">What is proposed.</param>
    /// <param name="text">What would be written.</param>
    /// <param name="offset">Where.</param>
    public static HoverText? Of(Lesson lesson, ProposalKind kind, string text, int offset)
    {
        var at = new Span(offset, 0);
        switch (kind)
        {
            case ProposalKind.Chord when ChordSymbol(text) is { } symbol:
                return ChartHover.Symbol(lesson, at, symbol, null);
            case ProposalKind.Voicing when LineParser.Parse($"1 {text}") is RowLine { Events: [{ Sounds: [{ Sound: SlotsSound slots }] }] }:
                var voicing = new Voicing([.. slots.Slots.Select(s => s.Fret)]);
                var line = lesson.Text.LineAt(offset);
                var settings = lesson.SettingsAt(line);
                return voicing.Strings != settings.Neck.Tuning.Strings ? null : SoundHover.Shape(at, text, voicing, settings) with { Diagram = FretDiagram.Of(voicing, settings.Neck, ChordAt(lesson, line)?.Chord) };
            case ProposalKind.Shape when lesson.Piece.Shapes.TryGetValue(text.Split(' ')[0], out var shape):
                var grip = new Voicing(shape.Slots);
                return grip.Strings == lesson.SettingsAt(lesson.Text.LineAt(offset)).Neck.Tuning.Strings ? SoundHover.Shape(at, shape.Name, grip, lesson.SettingsAt(lesson.Text.LineAt(offset))) : null;
            case ProposalKind.Check when NameHover.What(text.TrimEnd(':')) is { } what:
                return HoverText.Of(at, what);
            default:
                return null;
        }
    }

    private static ChordSpan? ChordAt(Lesson lesson, int line) => (lesson.RowOn(line)?.Bar ?? lesson.LastBarBefore(line))?.Chords.FirstOrDefault();

    private static SymbolSyntax? ChordSymbol(string text) => LineParser.Parse($"| {text}") is ChartLine { Bars: [{ Items: [{ Symbol: { } symbol }] }] } ? symbol : null;
}

// Hovers of what has a name of its own: sections, shapes, files, form words, expectations and silenced checks.
using ChordLang.Checks.Catalogue;
using ChordLang.Features.Lessons;
using ChordLang.Fretboard.Voicings;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Hovers;

internal static class NameHover
{
    public static HoverText Section(Lesson lesson, int line, SectionLine syntax, Span span)
    {
        var piece = lesson.Chart.Piece;
        if (piece.Sections.FirstOrDefault(s => s.Line == line) is not { } section)
            return HoverText.Of(span, syntax.Name.Length == 0 ? "A section needs a name behind this word." : $"Section {syntax[syntax.Name]} holds no bars.");
        var bars = piece.Bars.Skip(section.FirstBar).Take(section.BarCount).ToList();
        var size = bars.Count == 0 ? "holds no bars yet" : bars.Count == 1 ? $"is {Say.Bar(bars[0])}" : $"holds {bars.Count} bars, from {Say.Bar(bars[0])} to {Say.Bar(bars[^1])}";
        return HoverText.Of(span, section.Again ? $"Here section {section.Name} is played again: it {size}." : $"Section {section.Name} {size}.",
            bars.Count == 0 ? null : $"Its chords: {string.Join(" | ", bars.Take(16).Select(b => string.Join(' ', b.Chords.Where(c => !c.Carried || b.Chords.Length == 1).Select(c => c.Symbol?.Text ?? "N.C."))))}{(bars.Count > 16 ? " …" : "")}.",
            section.Prose.IsEmpty ? null : section.Prose[0]);
    }

    public static HoverText ShapeLine(Lesson lesson, int line, ShapeLine syntax, Token token)
    {
        var span = lesson.Tree.Absolute(line, token.Span);
        if (syntax.Slots is not { } slots)
            return HoverAt.Unread(lesson, line, span);
        var (name, neck) = (syntax[syntax.Name], lesson.SettingsAt(line).Neck);
        var voicing = new Voicing([.. slots.Slots.Select(s => s.Fret)]);
        if (voicing.Strings != neck.Tuning.Strings)
            return HoverText.Of(span, $"{name} is a grip of {voicing.Strings} strings: {voicing}.", $"This instrument has {neck.Tuning.Strings} strings.");
        var uses = lesson.Whole.Piece.Events.Count(e => e.Shape?.Name == name && !e.Repeated);
        var hover = SoundHover.Shape(token.Kind == TokenKind.Name ? span : lesson.Tree.Absolute(line, slots.Span), name, voicing, lesson.SettingsAt(line));
        return hover with { Span = span, More = hover.More.Add(uses == 0 ? "It is not played in this piece." : $"It is played {Say.Number(uses, "time")} in this piece.") };
    }

    public static HoverText Use(Lesson lesson, UseLine use, Span span)
    {
        var shapes = lesson.Piece.Shapes.Values.Where(s => s.Path is not null && s.Path.EndsWith(use.Path.Split('/')[^1], StringComparison.Ordinal)).Select(s => s.Name).Order(StringComparer.Ordinal).ToList();
        return HoverText.Of(span, shapes.Count == 0 ? $"The file {use.Path} gives this piece no shapes." : $"The file {use.Path} gives this piece {Say.Number(shapes.Count, "shape")}: {Say.List(shapes.Take(12))}.");
    }

    public static HoverText Form(FormLine form, Span span) => HoverText.Of(span, form.Kind switch
    {
        FormKind.Repeat => $"What follows, up to the word end, is played {(form.Number == 2 ? "twice" : $"{form.Number} times")}.",
        FormKind.Ending => $"What follows is played the {(form.Number == 1 ? "first" : form.Number == 2 ? "second" : $"{form.Number}th")} time only.",
        FormKind.End => "Here the repeat ends.",
        FormKind.Pickup => form.Count is { } count ? $"The next bar is a pickup: it begins on \"{Say.Spoken(count.Offset)}\" and is bar 0." : "The next bar is a pickup and is bar 0.",
        FormKind.Segno => "The sign: a later dal segno leads back to here.",
        FormKind.Coda => "Here the coda begins.",
        FormKind.ToCoda => "From here one leaps to the coda, the last time.",
        FormKind.Fine => "The piece ends here when one has gone back.",
        FormKind.DaCapo => "Go back to the beginning.",
        FormKind.DaCapoAlFine => "Go back to the beginning and play to the word fine.",
        FormKind.DaCapoAlCoda => "Go back to the beginning, and at to coda leap to the coda.",
        FormKind.DalSegno => "Go back to the sign.",
        FormKind.DalSegnoAlFine => "Go back to the sign and play to the word fine.",
        _ => "Go back to the sign, and at to coda leap to the coda.",
    });

    public static HoverText Expect(Lesson lesson, ExpectLine expect, Span span) => expect.Expectation is null
        ? HoverAt.Unread(lesson, lesson.Text.LineAt(span.Start), span)
        : HoverText.Of(span, $"The piece is expected to keep this: {expect[expect.Claim].Trim()}. The checker says where it does not.");

    public static HoverText Allow(AllowSyntax allow, Span span) => CheckCatalogue.All.FirstOrDefault(c => c.Code == allow.Code) is { } check
        ? HoverText.Of(span, $"Here the check {check.Code} is silenced: {check.Title}.", allow.Reason.Length == 0 ? "A reason is missing." : $"Reason: {allow.Reason}.", What(check.Code))
        : HoverText.Of(span, $"No check is called {allow.Code}, so this silences nothing.");

    /// <summary>The first paragraph of a check's page, or null.</summary>
    public static string? What(string code)
    {
        var lines = CheckCatalogue.Page(code)?.Split('\n').SkipWhile(l => l.TrimEnd() != "## What").Skip(1).SkipWhile(string.IsNullOrWhiteSpace).TakeWhile(l => !string.IsNullOrWhiteSpace(l));
        return lines is null ? null : string.Join(' ', lines.Select(l => l.Trim()));
    }
}

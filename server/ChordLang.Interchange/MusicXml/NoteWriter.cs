// One event as MusicXML notes, on the staff or on the tablature.
using System.Globalization;
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;


namespace ChordLang.Interchange.MusicXml;

/// <summary>What the notes of an event carry besides pitch and value.</summary>
/// <param name="TieIn">True where the event before goes on into it.</param>
/// <param name="TieOut">True where it goes on into the next.</param>
/// <param name="Next">The next event of the voice, which may arrive by a slide or slur; null for none.</param>
internal sealed record NoteSetting(bool TieIn, bool TieOut, Event? Next);

internal sealed class NoteWriter(Func<Event, Note, (int? String, int? Fret)> place, Func<Rational, long> ticks)
{
    /// <summary>A rest, or a gap.</summary>
    public XElement Rest(NoteValue value, int voice, int staff, bool wholeBar) => new("note",
        new XElement("rest", wholeBar ? new XAttribute("measure", "yes") : null), new XElement("duration", ticks(value.Length)),
        new XElement("voice", voice), wholeBar ? null : Type(value), wholeBar ? null : Modification(value), new XElement("staff", staff));

    /// <summary>The notes of an event under one value; marks stand on the first value, what leads on stands on the last.</summary>
    public IEnumerable<XElement> Notes(Event e, NoteValue value, (bool First, bool Last) at, (bool Start, bool Stop) tuplet, NoteSetting setting, int voice, int staff)
    {
        var tab = staff == 2;
        if (at.First)
            foreach (var grace in e.Grace)
                yield return new("note", new XElement("grace", new XAttribute("slash", "yes")), Pitch(grace), new XElement("voice", voice), new XElement("type", "eighth"),
                    new XElement("staff", staff), tab && place(e, grace) is { String: { } s, Fret: { } f }
                        ? new XElement("notations", new XElement("technical", new XElement("string", s), new XElement("fret", f))) : null);
        var notes = e.Notes.OrderBy(n => n.Midi).ToList();
        for (var i = 0; i < notes.Count; i++)
        {
            var n = notes[i];
            var (tieIn, tieOut) = (!at.First || setting.TieIn, !at.Last || setting.TieOut);
            var notations = new XElement("notations",
                tieIn ? new XElement("tied", new XAttribute("type", "stop")) : null,
                tieOut ? new XElement("tied", new XAttribute("type", "start")) : at.Last && RingsOn(e, n) ? new XElement("tied", new XAttribute("type", "let-ring")) : null,
                i == 0 && tuplet.Stop ? new XElement("tuplet", new XAttribute("type", "stop")) : null,
                i == 0 && tuplet.Start ? new XElement("tuplet", new XAttribute("type", "start")) : null,
                Leads(e, setting.Next, at, i == notes.Count - 1), Technical(e, n, tab, at.First),
                at.First ? Marks(e, i == 0, notes.Count > 1) : null);
            yield return new("note", at.Last && !tieOut && n.WantedEnd != e.End && n.WantedEnd > n.Onset ? new XAttribute("release", ticks(n.WantedEnd - e.End)) : null, i > 0 ? new XElement("chord") : null, Pitch(n), new XElement("duration", ticks(value.Length)),
                tieIn ? new XElement("tie", new XAttribute("type", "stop")) : null, tieOut ? new XElement("tie", new XAttribute("type", "start")) : null,
                new XElement("voice", voice), Type(value), Modification(value), n.Dead ? new XElement("notehead", "x") : null,
                new XElement("staff", staff), notations.HasElements ? notations : null,
                e.Has(MarkKind.PalmMute) ? new XElement("play", new XElement("mute", "palm")) : null);
        }
    }

    private static XElement Pitch(Note n) => new("pitch", new XElement("step", n.Pitch.Name.Letter.ToString()),
        n.Pitch.Name.Alteration == 0 ? null : new XElement("alter", n.Pitch.Name.Alteration), new XElement("octave", Math.Max(0, n.Pitch.Octave)));

    private static IEnumerable<XElement> Type(NoteValue value)
    {
        if (value.Type is null)
            yield break;
        yield return new("type", value.Type);
        for (var i = 0; i < value.Dots; i++)
            yield return new("dot");
    }

    private static XElement? Modification(NoteValue value) => !value.InTuplet ? null
        : new("time-modification", new XElement("actual-notes", value.Actual), new XElement("normal-notes", value.Normal));

    // Slides, slurs, hammers and pulls stand on the note arrived at; MusicXML wants both ends.
    private static IEnumerable<XElement> Leads(Event e, Event? next, (bool First, bool Last) at, bool top)
    {
        if (!top)
            yield break;
        if (at.First && e.Has(MarkKind.Slur))
            yield return new("slur", new XAttribute("type", "stop"), new XAttribute("number", 1));
        if (at.First && e.Has(MarkKind.Slide))
            yield return new("slide", new XAttribute("type", "stop"), new XAttribute("number", 1));
        if (at.Last && next?.Kind == EventKind.Struck && next.Has(MarkKind.Slur))
            yield return new("slur", new XAttribute("type", "start"), new XAttribute("number", 1));
        if (at.Last && next?.Kind == EventKind.Struck && next.Has(MarkKind.Slide))
            yield return new("slide", new XAttribute("type", "start"), new XAttribute("number", 1));
        var technical = new XElement("technical",
            End(at.First && e.Has(MarkKind.Hammer), "hammer-on", "stop", ""), End(at.First && e.Has(MarkKind.Pull), "pull-off", "stop", ""),
            End(at.Last && next?.Kind == EventKind.Struck && next.Has(MarkKind.Hammer), "hammer-on", "start", "H"),
            End(at.Last && next?.Kind == EventKind.Struck && next.Has(MarkKind.Pull), "pull-off", "start", "P"));
        if (technical.HasElements)
            yield return technical;

        static XElement? End(bool here, string name, string type, string text) =>
            here ? new(name, new XAttribute("type", type), new XAttribute("number", 1), text) : null;
    }

    private XElement? Technical(Event e, Note n, bool tab, bool first)
    {
        var (s, fret) = place(e, n);
        var technical = new XElement("technical",
            first && n.Harmonic ? new XElement("harmonic", new XElement("natural"), new XElement("sounding-pitch")) : null,
            tab && s is { } and >= 1 ? new XElement("string", s) : null, tab && fret is not null ? new XElement("fret", fret) : null,
            first && n.Finger is { } f and not Finger.None ? new XElement("fingering", f == Finger.Thumb ? "T" : ((int)f).ToString(CultureInfo.InvariantCulture)) : null,
            first && e.Marks.FirstOrDefault(m => m.Kind == MarkKind.Pluck)?.Operand is WordOperand pluck && n == e.Notes.MaxBy(x => x.Midi) ? new XElement("pluck", pluck.Word) : null,
            first && n.BendTo is { } to ? new XElement("bend", new XElement("bend-alter", (to.Midi - n.Midi).ToString(CultureInfo.InvariantCulture))) : null);
        return technical.HasElements ? technical : null;
    }

    // What rings until a count at which its own value ends anyway is said by the value; the sign alone would say that it rings to the end of the bar.
    private static bool RingsOn(Event e, Note n) => n.WantedEnd > e.End
        || (RingOf(e, m => m.String is not null && m.String == n.String) ?? RingOf(e, m => m.String is null)) is { } mark && (mark.Kind != MarkKind.RingUntil || n.WantedEnd != e.End);

    private static MarkSyntax? RingOf(Event e, Func<MarkSyntax, bool> of) => e.Marks.LastOrDefault(m => m.Kind is MarkKind.Ring or MarkKind.RingOver or MarkKind.RingUntil && of(m));

    private static bool FromAbove(Event e) => e.Marks.Any(m => m is { Kind: MarkKind.SlideFrom, Operand: WordOperand { Word: "above" } })
        || e.SlideFrom.FirstOrDefault() is { } from && e.Notes.FirstOrDefault() is { } to && from.Midi > to.Midi;

    private static IEnumerable<XElement> Marks(Event e, bool lowest, bool chord)
    {
        if (chord && e.Has(MarkKind.Roll))
            yield return new("arpeggiate");
        if (!lowest)
            yield break;
        var articulations = new XElement("articulations", e.Has(MarkKind.Accent) ? new XElement("accent") : null, e.Has(MarkKind.Short) ? new XElement("staccato") : null,
            e.Marks.Any(m => m.Kind == MarkKind.SlideFrom) ? new XElement(FromAbove(e) ? "plop" : "scoop") : null);
        if (articulations.HasElements)
            yield return articulations;
        if (e.Has(MarkKind.Vibrato))
            yield return new("ornaments", new XElement("wavy-line", new XAttribute("type", "start")), new XElement("wavy-line", new XAttribute("type", "stop")));
        if (e.Has(MarkKind.Fermata))
            yield return new("fermata");
    }
}

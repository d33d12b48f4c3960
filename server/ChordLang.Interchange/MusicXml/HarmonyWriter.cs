// A chord symbol as MusicXML's harmony element: kind, and the degrees by which the chord differs from it.
using System.Xml.Linq;
using ChordLang.Arrangement.Music;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Pitches;

namespace ChordLang.Interchange.MusicXml;

internal static class HarmonyWriter
{
    /// <summary>The element of a chord span; null where there is neither chord nor N.C. to say.</summary>
    public static XElement? Of(ChordSpan span, long offset)
    {
        if (span.Symbol is null)
            return new("harmony", new XElement("root", new XElement("root-step", new XAttribute("text", ""), "C")),
                new XElement("kind", new XAttribute("text", "N.C."), "none"), Offset(offset));
        if (span.Chord is not { } chord)
            return null;
        var suffix = span.Symbol.Suffix;
        return new("harmony", Step("root", chord.Root), new XElement("kind", new XAttribute("text", suffix), chord.Kind),
            chord.Bass is { } bass ? Step("bass", bass) : null, Degrees(chord), Offset(offset));
    }

    private static XElement? Offset(long offset) => offset == 0 ? null : new("offset", offset);

    private static XElement Step(string name, PitchName pitch) => new(name, new XElement(name + "-step", pitch.Letter.ToString()),
        pitch.Alteration == 0 ? null : new XElement(name + "-alter", pitch.Alteration));

    // Added, altered and missing degrees against the documented degrees of the kind; what players leave out by habit is not said.
    private static IEnumerable<XElement> Degrees(Chord chord)
    {
        if (ChordKinds.Find(chord.Kind) is not { } kind || chord.Kind is "other")
            kind = new(chord.Kind, [new(1, 0)], null);
        var own = chord.Tones.Select(t => t.Degree).ToList();
        foreach (var d in own.Where(d => !kind.Degrees.Contains(d)))
        {
            // An alteration takes the place of the kind's plain degree, where the chord has that no more.
            var replaced = kind.Degrees.Any(k => k.Number == d.Number) && own.Count(o => o.Number == d.Number) == 1;
            yield return Degree(d, replaced ? "alter" : "add", replaced ? d.Alteration - kind.Degrees.First(k => k.Number == d.Number).Alteration
                : d.Number == 7 ? d.Alteration + 1 : d.Alteration);     // an added seventh counts from the dominant one (MusicXML 4.0, degree-alter)
        }
        foreach (var k in kind.Degrees.Where(k => k.Number is not (1 or 11) && own.All(o => o.Number != k.Number)))
            yield return Degree(k, "subtract", 0);
    }

    private static XElement Degree(Degree degree, string type, int alter) =>
        new("degree", new XElement("degree-value", degree.Number), new XElement("degree-alter", alter), new XElement("degree-type", type));
}

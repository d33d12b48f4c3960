// How a sheet looks: paper and ink by day, light on dark by night, black on white in print.
using System.Globalization;
using System.Text;

namespace ChordLang.Interchange.Sheet;

/// <summary>Style sheets.</summary>
internal static class SheetStyle
{
    // Contrast on the ground is at least 4.5 to 1 for words and 3 to 1 for lines (WCAG 2.2, 1.4.3 and 1.4.11), by day and by night.
    private const string Day = "--paper:#fffdf8;--ink:#1b2430;--string:#8a8172;--chord:#0b5563;--warm:#8b4a0c;--soft:#5d6670";
    private const string Night = "--paper:#15191f;--ink:#ece7dc;--string:#7d8590;--chord:#86d3e0;--warm:#f0b56a;--soft:#a6afb9";
    private const string Print = "--paper:#fff;--ink:#000;--string:#777;--chord:#083f4a;--warm:#5c3108;--soft:#444";

    /// <summary>What the drawings need, wherever they stand.</summary>
    public static string Drawing()
    {
        var css = new StringBuilder();
        css.Append($"svg text{{font-family:{Face.Family};fill:var(--ink)}}.m{{text-anchor:middle}}");
        foreach (var face in Face.All)
            css.Append($".{face.Class}{{font-size:{face.Size.ToString(CultureInfo.InvariantCulture)}px{(face.Bold ? ";font-weight:700" : "")}{(face.Italic ? ";font-style:italic" : "")}}}");
        css.Append(".line,.line use{fill:var(--ink)}.cn text,.cn use,.cn{fill:var(--chord)}svg .cu,svg .n,svg .sn,svg .i{fill:var(--soft)}svg .te{fill:var(--warm)}")
            .Append(".st,.sl{fill:none;stroke:var(--string)}.sl{stroke-width:.7}.bl{stroke:var(--ink);stroke-width:.9}.stem{stroke:var(--ink);stroke-width:1;fill:none}")
            .Append(".thin,.slide,.wave{fill:none;stroke:var(--ink);stroke-width:.9;stroke-linejoin:round}.slide{stroke-width:1.2;stroke-linecap:round}.wave{stroke-width:1.1}.ledger{stroke:var(--ink);stroke-width:.9}")
            .Append(".bone{fill:var(--warm)}.bones{stroke:var(--warm);stroke-width:1}.ring{fill:none;stroke:var(--ink);stroke-width:1.1}.arc,.ink{fill:var(--ink)}")
            .Append(".fg{fill:none;stroke:var(--soft);stroke-width:.6}.nut{stroke:var(--ink);stroke-width:2}.barre{stroke:var(--ink);stroke-width:5.4;stroke-linecap:round}.dot{fill:var(--ink)}.open{fill:none;stroke:var(--ink);stroke-width:.8}.mute{fill:none;stroke:var(--soft);stroke-width:.8}svg .fb .fd{fill:var(--paper)}");
        return css.ToString();
    }

    /// <summary>A style sheet for a drawing that stands by itself; light only.</summary>
    public static string Alone()
    {
        // Not every program that shows drawings knows variables.
        var css = Drawing() + ".paper{fill:var(--paper)}";
        foreach (var setting in Day.Split(';'))
            if (setting.Split(':') is [var name, var value])
                css = css.Replace($"var({name})", value, StringComparison.Ordinal);
        return css;
    }

    /// <summary>The style sheet of a page.</summary>
    public static string Page(SheetOptions options)
    {
        var size = options.Paper switch { Paper.A4 => "size:A4;", Paper.Letter => "size:letter;", _ => "" };
        var text = options.Large ? 1.35 : 1.0;
        return $":root{{color-scheme:light dark;{Day}}}@media (prefers-color-scheme:dark){{:root{{{Night}}}}}"
            + $"@page{{{size}margin:14mm 14mm 16mm;@bottom-center{{content:counter(page);font:9pt Georgia,serif}}}}"
            + $"@media print{{:root{{{Print};color-scheme:light}}html{{font-size:{N(10.5 * text)}pt}}main{{max-width:none;padding:0}}.system,header,h2{{break-inside:avoid}}h2,.lead{{break-after:avoid}}.note{{break-before:avoid;break-inside:avoid}}}}"
            + $"@media screen{{html{{font-size:{N(17 * text)}px}}main{{max-width:{(options.Large ? 62 : 56)}rem;padding:2.5rem clamp(1rem,4vw,3rem) 4rem}}}}"
            + "*{box-sizing:border-box}body{margin:0;background:var(--paper);color:var(--ink);font-family:'Iowan Old Style','Palatino Linotype',Palatino,'Book Antiqua','Noto Serif',Georgia,serif;line-height:1.5}"
            + "main{margin:0 auto}header{border-left:.35rem solid var(--warm);padding-left:1rem;margin:0 0 1.6rem}h1{font-size:2rem;line-height:1.15;margin:0;letter-spacing:-.01em;text-wrap:balance}"
            + ".by{margin:.15rem 0 0;font-style:italic;color:var(--soft)}.facts{margin:.4rem 0 0;padding:0;list-style:none;display:flex;flex-wrap:wrap;gap:.1rem 1.1rem;color:var(--soft);font-size:.92rem}"
            + "h2{font-size:1.15rem;margin:1.7rem 0 .3rem;color:var(--warm);font-weight:700;letter-spacing:.01em}.lead,.note{max-width:42rem;overflow-wrap:anywhere}.lead p,.note p{margin:.3rem 0 .6rem}"
            + ".note{margin:.1rem 0 1rem;padding-left:.9rem;border-left:.12rem solid var(--string)}.note .bars{font-weight:700;font-size:.82rem;color:var(--soft);margin:0}.note .bars+p{margin-top:0}"
            + ".system{margin:.5rem 0 .9rem}.sys{display:block;width:100%;height:auto;overflow:visible}.defs{position:absolute;width:0;height:0}"
            + ".spoken{position:absolute;width:1px;height:1px;margin:-1px;overflow:hidden;clip-path:inset(50%)}.system{position:relative}h1,h2,.by,.facts{overflow-wrap:anywhere}"
            + (options.Sound ? Heard(options) : "")
            + Drawing();
    }

    // Words, not a bar of buttons: beside the line where there is room for a margin, under it where there is none, nowhere in print.
    private static string Heard(SheetOptions options) =>
        ".hear{display:flex;flex-wrap:wrap;gap:.1rem 1.1rem;font-size:.86rem;line-height:1.45;margin:.15rem 0 .4rem}.hear[hidden]{display:none}"
        + ".hear button,.hear summary{font:inherit;color:var(--chord);background:none;border:0;padding:.2rem 0;margin:0;text-align:left;cursor:pointer;text-decoration:underline dotted 1px;text-underline-offset:.2em;overflow-wrap:anywhere;min-height:1.6rem}"
        + ".hear button:hover,.hear summary:hover{text-decoration-style:solid}.hear button[aria-pressed=true]{font-weight:700;color:var(--warm);text-decoration-style:solid}.hear button[aria-pressed=true]::before{content:'\\2713\\00a0'}"
        + ".hear button:focus-visible,.hear summary:focus-visible{outline:2px solid var(--warm);outline-offset:2px}.hear details button{display:block}.sys text.now,.sys .now text{fill:var(--warm);font-weight:700}.sys use.now{fill:var(--warm)}"
        + $"@media screen and (min-width:{(options.Large ? 78 : 72)}rem){{main{{max-width:{(options.Large ? 76 : 70)}rem}}.system{{display:grid;grid-template-columns:minmax(0,1fr) 11.5rem;column-gap:1.5rem;align-items:start}}.hear{{flex-direction:column;gap:0}}}}"
        + "@media print{.hear{display:none}}";

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}

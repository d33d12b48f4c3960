// Files made to harm who reads them, made anew for each test: nothing of them lies in the repository.
using System.IO.Compression;
using System.Text;

namespace ChordLang.Interchange.Tests.Hostile;

internal static class HostileFiles
{
    private const string Head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    private const string Score = "<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>&x;</part-name></score-part></part-list><part id=\"P1\"><measure number=\"1\"/></part></score-partwise>";

    /// <summary>By name: the bytes, and a word that the answer must hold.</summary>
    public static IReadOnlyList<(string Name, byte[] Bytes, string Says)> All => Made.Value;

    private static readonly Lazy<List<(string, byte[], string)>> Made = new(() => [.. Make()]);

    private static IEnumerable<(string Name, byte[] Bytes, string Says)> Make()
    {
        yield return ("entity bomb", Text(Head + "<!DOCTYPE s [<!ENTITY a \"aaaaaaaaaa\">" + string.Concat(Enumerable.Range(0, 25).Select(i => $"<!ENTITY a{i} \"{string.Concat(Enumerable.Repeat($"&a{(i == 0 ? "" : (i - 1).ToString())};", 10))}\">"))
            + "<!ENTITY x \"&a24;\">]>\n" + Score), "entity");
        yield return ("external entity", Text(Head + "<!DOCTYPE s [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n" + Score), "entity");
        yield return ("external parameter entity", Text(Head + "<!DOCTYPE s [<!ENTITY % p SYSTEM \"http://127.0.0.1:9/x.dtd\"> %p;]>\n" + Score), "entity");
        yield return ("deep", Text(Head + string.Concat(Enumerable.Repeat("<a>", 200_000))), "deep");
        yield return ("wide", Text(Head + "<score-partwise>" + string.Concat(Enumerable.Repeat("<a b=\"\"/>", 900_000)) + "</score-partwise>"), "more elements");
        yield return ("no end", Text(Head + "<score-partwise><part>"), "not well-formed");
        yield return ("wrong encoding", [.. Text(Head + "<score-partwise><part-list>"), 0xC3, 0x28, 0xFF, .. Text("</part-list></score-partwise>")], "");
        yield return ("unknown encoding", Text("<?xml version=\"1.0\" encoding=\"klingon\"?><score-partwise/>"), "");
        yield return ("encoding that lies", Text("<?xml version=\"1.0\" encoding=\"UTF-16\"?><score-partwise/>"), "");
        yield return ("another kind of XML", Text(Head + "<svg/>"), "no MusicXML score");
        yield return ("no part", Text(Head + "<score-partwise/>"), "no part");
        yield return ("zip bomb", Zip(("META-INF/container.xml", Container("a.xml")), ("a.xml", new byte[100 * 1024 * 1024])), "unpacks to more");
        yield return ("zip that leads out", Zip(("META-INF/container.xml", Container("../../a.xml")), ("../../a.xml", Text("<score-partwise/>"))), "outside itself");
        yield return ("zip without container", Zip(("a.xml", Text("<score-partwise/>"))), "container");
        yield return ("zip of nothing there", Zip(("META-INF/container.xml", Container("b.xml"))), "not in it");
        yield return ("zip of many", Zip([.. Enumerable.Range(0, 2_000).Select(i => ($"f{i}", Array.Empty<byte>()))]), "more than");
        var good = Zip(("META-INF/container.xml", Container("a.xml")), ("a.xml", Text("<score-partwise/>")));
        yield return ("truncated zip", good[..(good.Length / 2)], "damaged");
        yield return ("zip of garbage", [.. good[..40], .. Enumerable.Repeat((byte)0xAA, 200)], "damaged");
        yield return ("MIDI with running status and no status", Midi(0x00, 0x40, 0x40, 0x40), "nothing began");
        yield return ("MIDI that claims too much", Midi(0x00, 0xFF, 0x01, 0xFF, 0xFF, 0xFF, 0x7F, 0x41), "more bytes than there are");
        yield return ("MIDI whose length does not end", Midi(0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF), "does not end");
        yield return ("MIDI with an event for data", Midi(0x00, 0x90, 0x91, 0x40), "should be data");
        yield return ("MIDI cut off", Midi(0x00, 0x90), "cut off");
        yield return ("MIDI of a film", [.. "MThd"u8, 0, 0, 0, 6, 0, 1, 0, 1, 0xE7, 0x28], "film");
        yield return ("MIDI header alone", [.. "MThd"u8, 0, 0, 0, 6], "MIDI");
        yield return ("MIDI that runs away", Midi([.. Enumerable.Repeat((byte[])[0xFF, 0xFF, 0xFF, 0x7F, 0x90, 0x40, 0x40], 9_000).SelectMany(b => b)]), "run away");
        yield return ("nothing", [], "no tablature");
        yield return ("ten million of nothing", new byte[10 * 1024 * 1024], "no tablature");
        yield return ("prose", Text("Dear student,\nplease practise.\n"), "no tablature");
    }

    public static byte[] Text(string text) => Encoding.UTF8.GetBytes(text);

    public static byte[] Container(string path) => Text($"<container><rootfiles><rootfile full-path=\"{path}\"/></rootfiles></container>");

    public static byte[] Zip(params (string Name, byte[] Bytes)[] files)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, true))
            foreach (var (name, content) in files)
            {
                using var stream = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                stream.Write(content);
            }
        return bytes.ToArray();
    }

    /// <summary>A file of one track with these bytes.</summary>
    public static byte[] Midi(params byte[] track) =>
        [.. "MThd"u8, 0, 0, 0, 6, 0, 1, 0, 1, 0x01, 0xE0, .. "MTrk"u8, (byte)(track.Length >> 24), (byte)(track.Length >> 16), (byte)(track.Length >> 8), (byte)track.Length, .. track];
}

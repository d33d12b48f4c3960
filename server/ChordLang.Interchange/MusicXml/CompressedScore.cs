// The compressed form of MusicXML (.mxl): a zip with a container that names the score.
using System.IO.Compression;
using System.Text;
using ChordLang.Interchange.Scores;

namespace ChordLang.Interchange.MusicXml;

/// <summary>Packs and unpacks scores (MusicXML 4.0, compressed .mxl files).</summary>
public static class CompressedScore
{
    private const string Container = "META-INF/container.xml", Inside = "score.musicxml";
    private const int MostEntries = 1_000, MostBytes = 24 * 1024 * 1024;

    /// <summary>True where bytes begin as a zip does.</summary>
    public static bool Is(ReadOnlySpan<byte> bytes) => bytes.StartsWith("PK\u0003\u0004"u8);

    /// <summary>The bytes of an .mxl file that holds a score; the same on every run.</summary>
    public static byte[] Pack(string score)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, true))
        {
            // The standard asks for the type first, plain, so that it can be seen without unpacking.
            Add(zip, "mimetype", "application/vnd.recordare.musicxml", CompressionLevel.NoCompression);
            Add(zip, Container, $"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container>\n  <rootfiles>\n    <rootfile full-path=\"{Inside}\" media-type=\"application/vnd.recordare.musicxml+xml\"/>\n  </rootfiles>\n</container>\n", CompressionLevel.Optimal);
            Add(zip, Inside, score, CompressionLevel.Optimal);
        }
        return bytes.ToArray();
    }

    /// <summary>The score inside an .mxl file.</summary>
    /// <exception cref="UnreadableScoreException">It is no such file, or one that is not safe to unpack.</exception>
    public static byte[] Unpack(byte[] bytes)
    {
        try
        {
            using var zip = new ZipArchive(new MemoryStream(bytes, false), ZipArchiveMode.Read);
            if (zip.Entries.Count > MostEntries)
                throw new UnreadableScoreException($"it holds more than {MostEntries} files");
            foreach (var entry in zip.Entries)
                if (Leads(entry.FullName))
                    throw new UnreadableScoreException("it names a file outside itself, so none of it is read");
            var container = zip.GetEntry(Container) ?? throw new UnreadableScoreException($"it holds no {Container}, so nothing says which file in it is the score");
            var path = SafeXml.Read(Bytes(container)).Descendants("rootfile").Select(r => (string?)r.Attribute("full-path")).FirstOrDefault(p => p is not null)
                ?? throw new UnreadableScoreException("its container names no score");
            return Bytes(zip.GetEntry(path) ?? throw new UnreadableScoreException("its container names a score that is not in it"));
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException or NotSupportedException or ArgumentException or IOException)
        {
            throw new UnreadableScoreException("its zip is damaged or cut off");
        }
    }

    private static bool Leads(string name) => name.StartsWith('/') || name.Contains('\\', StringComparison.Ordinal) || name.Contains(':', StringComparison.Ordinal)
        || name.Contains('\0', StringComparison.Ordinal) || name.Split('/').Contains("..");

    // Counted while it unpacks: what an entry says of its own size proves nothing.
    private static byte[] Bytes(ZipArchiveEntry entry)
    {
        if (entry.Length > MostBytes)
            throw new UnreadableScoreException($"it unpacks to more than {MostBytes / 1024 / 1024} MB");
        using var from = entry.Open();
        using var to = new MemoryStream();
        var buffer = new byte[1 << 16];
        for (int n; (n = from.Read(buffer)) > 0;)
        {
            to.Write(buffer, 0, n);
            if (to.Length > MostBytes)
                throw new UnreadableScoreException($"it unpacks to more than {MostBytes / 1024 / 1024} MB");
        }
        return to.ToArray();
    }

    private static void Add(ZipArchive zip, string name, string text, CompressionLevel level)
    {
        var entry = zip.CreateEntry(name, level);
        entry.LastWriteTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
        using var stream = entry.Open();
        stream.Write(Encoding.UTF8.GetBytes(text));
    }
}

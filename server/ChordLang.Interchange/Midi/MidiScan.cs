// Reads the bytes of a MIDI file. Every length is held against what is there: a library that trusts them allocates what a stranger's file claims.
using System.Text;
using ChordLang.Interchange.Scores;

namespace ChordLang.Interchange.Midi;

/// <summary>A note of a file, in ticks.</summary>
internal sealed record TickNote(int Track, int Channel, int Midi, long On, long Off, double Bend);

/// <summary>What a MIDI file holds (Standard MIDI Files 1.0).</summary>
internal sealed class MidiScan
{
    private const int MostNotes = 200_000, MostTracks = 256;

    private readonly byte[] bytes;
    private int at;

    private MidiScan(byte[] bytes) => this.bytes = bytes;

    /// <summary>Ticks a quarter note.</summary>
    public int TicksPerQuarter { get; private set; }

    /// <summary>All notes, by track and time.</summary>
    public List<TickNote> Notes { get; } = [];

    /// <summary>Names of the tracks.</summary>
    public Dictionary<int, string> Names { get; } = [];

    /// <summary>Programs of channels, by track.</summary>
    public Dictionary<(int Track, int Channel), int> Programs { get; } = [];

    /// <summary>Microseconds a quarter, by tick.</summary>
    public List<(long At, int Micros)> Tempos { get; } = [];

    /// <summary>Meters, by tick.</summary>
    public List<(long At, int Counts, int Unit)> Meters { get; } = [];

    /// <summary>Key signatures, by tick.</summary>
    public List<(long At, int Fifths, bool Minor)> Keys { get; } = [];

    /// <summary>Markers, by tick.</summary>
    public List<(long At, string Text)> Markers { get; } = [];

    /// <summary>True where a track ends without its end event.</summary>
    public bool CutOff { get; private set; }

    /// <summary>True where bytes begin as a MIDI file does.</summary>
    public static bool Is(ReadOnlySpan<byte> bytes) => bytes.StartsWith("MThd"u8);

    /// <summary>Reads a file.</summary>
    /// <exception cref="UnreadableScoreException">It is none, or it is damaged.</exception>
    public static MidiScan Read(byte[] bytes)
    {
        var scan = new MidiScan(bytes);
        scan.Header();
        return scan;
    }

    private void Header()
    {
        if (!Is(bytes) || bytes.Length < 14)
            throw new UnreadableScoreException("it does not begin as a MIDI file does");
        at = 4;
        var length = Long();
        var (format, tracks, division) = (Short(), Short(), Short());
        if (length < 6 || length > bytes.Length - 8)
            throw new UnreadableScoreException("its header is damaged");
        if (format > 1)
            throw new UnreadableScoreException("its tracks are pieces of their own (format 2), not voices of one");
        if (division is 0 or >= 0x8000)
            throw new UnreadableScoreException("its time is counted in frames of a film, not in beats");
        TicksPerQuarter = division;
        at = 8 + (int)length;
        for (var track = 0; track < Math.Min(tracks, MostTracks) && at + 8 <= bytes.Length;)
        {
            var isTrack = bytes.AsSpan(at, 4).SequenceEqual("MTrk"u8);
            at += 4;
            var size = Long();
            var end = (int)Math.Min(bytes.Length, at + size);
            CutOff |= at + size > bytes.Length;
            if (isTrack)
                Track(track++, end);
            at = end;
        }
        if (Notes.Count == 0 && CutOff)
            throw new UnreadableScoreException("it is cut off before its first note");
    }

    private void Track(int track, int end)
    {
        var (time, running) = (0L, 0);
        var open = new Dictionary<(int Channel, int Midi), Queue<(long On, double Bend)>>();
        var (wheel, range, parameter) = (new double[16], Enumerable.Repeat(2.0, 16).ToArray(), new int[16]);
        var bends = new Dictionary<(int Channel, int Midi), double>();
        while (true)
        {
            if (at >= end)
            {
                CutOff = true;
                break;
            }
            time += Variable(end);
            if (time > 1L << 40)
                throw new UnreadableScoreException("its times run away");
            var status = Byte(end);
            if (status < 0x80)
            {
                if (running == 0)
                    throw new UnreadableScoreException($"byte {at - 1} continues an event that nothing began");
                (status, at) = (running, at - 1);
            }
            if (status is 0xFF)
            {
                running = 0;
                var kind = Byte(end);
                var data = Data(end);
                if (kind == 0x2F)
                    break;
                Meta(track, time, kind, data);
                continue;
            }
            if (status is 0xF0 or 0xF7)
            {
                running = 0;
                Data(end);
                continue;
            }
            if (status > 0xF0)
                throw new UnreadableScoreException($"byte {at - 1} is no event of a file");
            running = status;
            var (command, channel) = (status >> 4, status & 15);
            var first = Low(end);
            var second = command is 0xC or 0xD ? 0 : Low(end);
            switch (command)
            {
                case 9 when second > 0:
                    if (!open.TryGetValue((channel, first), out var queue))
                        open[(channel, first)] = queue = [];
                    queue.Enqueue((time, 0));
                    bends[(channel, first)] = wheel[channel];
                    break;
                case 8 or 9:
                    Close(track, channel, first, time, open, bends);
                    break;
                case 0xB when first is 100 or 101:
                    parameter[channel] = first == 101 ? second << 7 : parameter[channel] & ~0x7F | second;
                    break;
                case 0xB when first == 6 && parameter[channel] == 0:
                    range[channel] = second;
                    break;
                case 0xC:
                    Programs[(track, channel)] = first;
                    break;
                case 0xE:
                    wheel[channel] = ((second << 7 | first) - 0x2000) * range[channel] / 0x2000;
                    foreach (var key in open.Where(o => o.Key.Channel == channel && o.Value.Count > 0).Select(o => o.Key))
                        if (Math.Abs(wheel[channel]) > Math.Abs(bends.GetValueOrDefault(key)))
                            bends[key] = wheel[channel];
                    break;
            }
        }
        foreach (var (key, queue) in open)
            while (queue.Count > 0)
                Close(track, key.Channel, key.Midi, time, open, bends);
    }

    private void Close(int track, int channel, int midi, long time, Dictionary<(int, int), Queue<(long On, double Bend)>> open, Dictionary<(int, int), double> bends)
    {
        if (!open.TryGetValue((channel, midi), out var queue) || queue.Count == 0)
            return;
        var (on, _) = queue.Dequeue();
        if (Notes.Count >= MostNotes)
            throw new UnreadableScoreException($"it has more than {MostNotes} notes");
        Notes.Add(new(track, channel, midi, on, time, bends.GetValueOrDefault((channel, midi))));
    }

    private void Meta(int track, long time, int kind, ReadOnlySpan<byte> data)
    {
        switch (kind)
        {
            case 0x03 when !Names.ContainsKey(track):
                Names[track] = Text(data);
                break;
            case 0x06:
                Markers.Add((time, Text(data)));
                break;
            case 0x51 when data.Length == 3 && (data[0] << 16 | data[1] << 8 | data[2]) is > 0 and var micros:
                Tempos.Add((time, micros));
                break;
            case 0x58 when data.Length >= 2 && data[0] > 0 && data[1] <= 6:
                Meters.Add((time, data[0], 1 << data[1]));
                break;
            case 0x59 when data.Length >= 2 && (sbyte)data[0] is >= -7 and <= 7 and var fifths:
                Keys.Add((time, fifths, data[1] == 1));
                break;
        }
    }

    // Most programs write UTF-8, some Latin; a damaged byte becomes a sign of its own.
    private static string Text(ReadOnlySpan<byte> data) => LessonWriter.Line(Encoding.UTF8.GetString(data[..Math.Min(data.Length, 200)]));

    private int Byte(int end) => at < end ? bytes[at++] : throw CutShort();

    private int Low(int end) => Byte(end) is < 0x80 and var low ? low : throw new UnreadableScoreException($"byte {at - 1} should be data, and is an event");

    private ReadOnlySpan<byte> Data(int end)
    {
        var length = Variable(end);
        if (length > end - at)
            throw new UnreadableScoreException($"at byte {at} it claims more bytes than there are");
        at += (int)length;
        return bytes.AsSpan(at - (int)length, (int)length);
    }

    private long Variable(int end)
    {
        var value = 0L;
        for (var i = 0; i < 4; i++)
        {
            var next = Byte(end);
            value = value << 7 | (long)(next & 0x7F);
            if (next < 0x80)
                return value;
        }
        throw new UnreadableScoreException($"at byte {at} a length does not end");
    }

    private long Long() => (long)Short() << 16 | (long)Short();

    private int Short() => at + 2 <= bytes.Length ? bytes[at++] << 8 | bytes[at++] : throw CutShort();

    private static UnreadableScoreException CutShort() => new("it is cut off in the middle of an event");
}

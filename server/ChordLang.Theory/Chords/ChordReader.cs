// Reads a chord symbol as players write it, and says at which character it cannot.
using System.Collections.Immutable;
using ChordLang.Theory.Pitches;

namespace ChordLang.Theory.Chords;

/// <summary>Reads chord symbols. Never throws; every text gets a chord or a trouble whose place lies inside it (or at its end).</summary>
public static class ChordReader
{
    private const int MaxLength = 64; // far beyond any symbol; keeps the search for near ones short

    /// <summary>Reads a whole symbol, such as <c>F#m7b5/C</c>.</summary>
    public static ChordReading Read(string symbol)
    {
        var root = RootLength(symbol);
        var slash = symbol.LastIndexOf('/');
        return slash >= root && root > 0 && IsName(symbol[(slash + 1)..])
            ? Read(symbol[..root], symbol[root..slash], symbol[(slash + 1)..])
            : Read(symbol[..root], symbol[root..], null);
    }

    /// <summary>Reads a symbol that is already parted into root, suffix and slash bass. Offsets of a trouble count from the start of the root.</summary>
    public static ChordReading Read(string root, string suffix, string? bass)
    {
        var symbol = root + suffix + (bass is null ? "" : "/" + bass);
        if (symbol.Length > MaxLength)
            return Trouble(MaxLength, symbol.Length - MaxLength, "This is too long for a chord symbol.", []);
        if (!PitchName.TryParse(root, out var tonic))
            return Trouble(0, Math.Min(1, symbol.Length), RootMessage(symbol), NearestSymbols.ToRoot(symbol));
        PitchName? low = null;
        if (bass is not null)
        {
            if (!PitchName.TryParse(bass, out var b))
                return Trouble(symbol.Length - bass.Length, bass.Length, $"After the slash stands the bass, a note name such as {tonic}; \"{bass}\" is none.", NearestSymbols.ToBass(root, suffix, bass));
            low = b;
        }
        var signs = SymbolSigns.Of(suffix);
        if (Ambiguities.Find(root, signs.Text) is { } two)
            return Trouble(root.Length, signs.Places[two.Length], two.Message, NearestSymbols.Readable(two.Readings.Select(r => r + (bass is null ? "" : "/" + bass))));
        var reading = SuffixParser.Read(signs.Text);
        return reading.At < 0 ? new(Build(symbol, tonic, low, reading), null) : SuffixTrouble(root, suffix, bass, signs, reading);
    }

    /// <summary>True for a symbol that <see cref="Read(string)"/> has a chord for; it costs no search for near ones.</summary>
    internal static bool CanRead(string symbol)
    {
        var root = RootLength(symbol);
        if (root == 0 || symbol.Length > MaxLength || !PitchName.TryParse(symbol.AsSpan(0, root), out _))
            return false;
        var slash = symbol.LastIndexOf('/');
        var end = slash >= root && IsName(symbol[(slash + 1)..]) ? slash : symbol.Length;
        var suffix = SymbolSigns.Of(symbol[root..end]).Text;
        return Ambiguities.Find(symbol[..root], suffix) is null && SuffixParser.Read(suffix).At < 0;
    }

    /// <summary>The chord of a root and degrees, as if a symbol had asked for them.</summary>
    internal static Chord Build(string symbol, PitchName root, PitchName? bass, SuffixReading reading)
    {
        var roles = ToneRoles.Of(reading.Degrees, reading.Omitted);
        return new(symbol, root, ChordKinds.Of(reading.Base, reading.Degrees),
            [.. reading.Degrees.Select(d => new ChordTone(d, d.Above(root), roles[d.Interval]))], bass, roles, DegreeNames.Of(reading.Degrees));
    }

    private static ChordReading SuffixTrouble(string root, string suffix, string? bass, SymbolSigns signs, SuffixReading reading)
    {
        var at = signs.Places[reading.At];
        var end = reading.Why is SuffixFailure.Unknown or SuffixFailure.NothingLeft ? suffix.Length : signs.Places[Math.Min(reading.At + 1, signs.Places.Count - 1)];
        var (read, rest) = (root + suffix[..at], suffix[at..]);
        var message = reading.Why switch
        {
            SuffixFailure.OpenBracket => "This bracket is never closed. Write ) after the last degree in it.",
            SuffixFailure.EmptyBracket => "Nothing stands in these brackets. Write a degree such as b9 in them, or take them away.",
            SuffixFailure.NestedBracket => "Brackets in a chord symbol do not stand in one another. Part the degrees with commas instead.",
            SuffixFailure.StrayBracket => "This bracket closes nothing. Take it away, or open one before it.",
            SuffixFailure.NothingAfterSlash => $"After \"{suffix[at..]}\" a bass note or a degree is missing.",
            SuffixFailure.NothingLeft => $"With \"{rest}\" no tone of the chord is left. Leave at least one of them in.",
            _ when at > 0 && suffix[at - 1] == '/' => $"After the slash stands a bass note from A to G or a degree such as b9; \"{rest}\" is neither.",
            _ => $"\"{read}\" can be read; \"{rest}\" after it means nothing in a chord symbol.",
        };
        return Trouble(root.Length + at, Math.Max(1, end - at), message, reading.Why == SuffixFailure.NothingLeft ? NearestSymbols.Without(root, signs.Text, reading.At, bass) : NearestSymbols.ToSuffix(root, signs.Text, reading.At, bass));
    }

    private static string RootMessage(string symbol) => symbol switch
    {
        "" => "Here a chord symbol is missing.",
        ['H' or 'h', ..] => "A chord symbol begins with a letter from A to G. The note that some call H is B here, and their B is Bb.",
        [>= 'a' and <= 'g', ..] => "A chord symbol begins with a capital letter from A to G; a minor chord has an m after it.",
        _ => "A chord symbol begins with the name of its root, a letter from A to G.",
    };

    private static bool IsName(string bass) => bass.Length > 0 && RootLength(bass) == bass.Length;

    // As the grammar parts them: an accidental after the letter is the root's; a second one like it too, unless a number other than 7 follows it.
    private static int RootLength(string symbol)
    {
        if (symbol.Length == 0 || symbol[0] is not (>= 'A' and <= 'G'))
            return 0;
        if (symbol.Length > 2 && symbol[1] == '\uD834' && symbol[2] is '\uDD2A' or '\uDD2B')
            return 3;
        if (symbol.Length < 2 || symbol[1] is not ('#' or 'b' or '♯' or '♭'))
            return 1;
        return symbol.Length > 2 && symbol[2] == symbol[1] && !(symbol.Length > 3 && symbol[3] is >= '0' and <= '9' and not '7') ? 3 : 2;
    }

    private static ChordReading Trouble(int at, int length, string message, ImmutableArray<string> nearest) => new(null, new(at, length, message, nearest));
}

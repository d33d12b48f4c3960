// What whoever hands out a sheet can choose.
namespace ChordLang.Interchange.Sheet;

/// <summary>Which staves a system has.</summary>
public enum Staves
{
    /// <summary>Staff above tablature.</summary>
    Both,
    /// <summary>Tablature only.</summary>
    Tab,
    /// <summary>Staff only.</summary>
    Staff,
}

/// <summary>Where fret diagrams stand.</summary>
public enum Diagrams
{
    /// <summary>None.</summary>
    None,
    /// <summary>Over the first use of each voicing.</summary>
    First,
    /// <summary>Over every voicing.</summary>
    Every,
}

/// <summary>The paper of a printed sheet.</summary>
public enum Paper
{
    /// <summary>Whatever the printer holds.</summary>
    Any,
    /// <summary>ISO A4.</summary>
    A4,
    /// <summary>US Letter.</summary>
    Letter,
}

/// <summary>Choices for a sheet.</summary>
public sealed record SheetOptions
{
    /// <summary>Which staves.</summary>
    public Staves Staves { get; init; } = Staves.Both;

    /// <summary>Where fret diagrams stand.</summary>
    public Diagrams Diagrams { get; init; } = Diagrams.First;

    /// <summary>The paper.</summary>
    public Paper Paper { get; init; } = Paper.Any;

    /// <summary>True for large print: fewer bars a line, everything half as large again.</summary>
    public bool Large { get; init; }

    /// <summary>True for a page that can be heard: words beside each line, and a script.</summary>
    public bool Sound { get; init; }

    /// <summary>Numbers of the bars that a page which can be heard offers for practice.</summary>
    public IReadOnlySet<int> Practise { get; init; } = new HashSet<int>();

    /// <summary>Words under the chords, by the offset in the text at which the chord is written: numerals, for instance. Empty for none.</summary>
    public IReadOnlyDictionary<int, string> UnderChords { get; init; } = new Dictionary<int, string>();

    /// <summary>The chords that remain without decoration, by the same offsets: a line under the names joins them. Empty for no line.</summary>
    public IReadOnlySet<int> Skeleton { get; init; } = new HashSet<int>();

    /// <summary>Width of a system in units of the drawing; a string lies 11 of them from the next. As on a page where nothing is said, and never more.</summary>
    public double Width { get => field > 0 ? Math.Clamp(field, Narrowest, Widest) : Widest; init; }

    private const double Narrowest = 300;

    private double Widest => Large ? 500 : 760;
}

// All checks, and the one way to run them.
using System.Collections.Immutable;
using System.Text;
using ChordLang.Arrangement.Music;
using ChordLang.Checks.Hand;
using ChordLang.Checks.Names;
using ChordLang.Checks.Configuring;
using ChordLang.Checks.Counts;
using ChordLang.Checks.Expect;
using ChordLang.Checks.Form;
using ChordLang.Checks.Frets;
using ChordLang.Checks.Ringing;
using ChordLang.Checks.Spelling;
using ChordLang.Checks.Text;

namespace ChordLang.Checks.Catalogue;

/// <summary>The list of all checks.</summary>
public static class CheckCatalogue
{
    /// <summary>Every check, in the order of the list that <c>explain</c> prints.</summary>
    public static ImmutableArray<Check> All { get; } =
    [
        // text
        new Unreadable(),
        new MergeMarker(),
        new UnknownSetting(),
        new BadValue(),
        new ValueOutOfRange(),
        new DoubledSetting(),
        new BadCount(),
        new MissingCount(),
        new MissingSound(),
        new ChordInRow(),
        new SoundAsName(),
        new UnknownChord(),
        new UnknownMark(),
        new MarkOperand(),
        new OpenQuote(),
        new FirstOctave(),
        new ShapeName(),
        new UnknownShape(),
        new DoubledShape(),
        new UnusedShape(),
        new UseRefused(),
        new TypedSigns(),
        new Unsure(),
        new UnmetExpectation(),
        new MissingReason(),
        new UnusedAllow(),

        // form
        new UnbalancedRepeat(),
        new EndingNumber(),
        new LeapNowhere(),
        new DoubledSign(),
        new TooLong(),
        new MisplacedPickup(),
        new DoubledSection(),
        new UnknownSection(),
        new BarsUnderAgain(),
        new RowsUnderSeveralBars(),
        new RowWithoutBar(),
        new DoubledVoice(),
        new NothingToRepeat(),
        new BarSignNotAlone(),
        new RepeatedBarDiffers(),
        new RepeatSign(),

        // counts
        new OutsideBar(),
        new OutOfOrder(),
        new CountTwice(),
        new RunDoesNotFit(),
        new ChordSharing(),
        new NothingBefore(),
        new LateStart(),
        new OddFraction(),

        // frets
        new SlotCount(),
        new OffNeck(),
        new NoSuchString(),
        new OutOfReach(),
        new TwoOnOneString(),
        new SidesDiffer(),
        new OpenShape(),
        new NothingPlayed(),
        new MarkOffString(),
        new SlurAcrossStrings(),
        new SlurDirection(),
        new FingerCount(),

        // names
        new NameContradiction(),
        new NameFretSlip(),
        new NameStringSetSlip(),
        new NameSlashBass(),
        new NameMissingTone(),
        new NameUnnamedTension(),

        // spelling
        new ChordSymbolSpelling(),
        new WrittenPitchSpelling(),
        new SignatureSlip(),

        // hand
        new NoPlace(),
        new ImpossibleStretch(),
        new WideStretch(),
        new TooManyFingers(),
        new CrossedFingers(),
        new FingerOnSilentString(),
        new FingerMissing(),
        new TwoFretsOneFinger(),
        new BarreOverLowerNote(),
        new ThumbOutOfReach(),
        new FingersTooFar(),
        new FastShift(),
        new OpenStringLost(),
        new PastNeckEnd(),

        // ring
        new RingCutByString(),
        new RingCutByFinger(),

        // tool
        new CheckFailed(),
    ];

    /// <summary>
    /// Runs every check: findings in the order of the text, silenced ones left out, each with its bar and count. A check that throws becomes
    /// one information finding (<c>tool-check-failed</c>), and the others go on.
    /// </summary>
    public static ImmutableArray<Finding> Run(Piece piece) => Run(piece, All);

    /// <summary>Runs some checks, as <see cref="Run(Piece)"/> does.</summary>
    public static ImmutableArray<Finding> Run(Piece piece, ImmutableArray<Check> checks) => Report(piece, checks).Findings;

    /// <summary>Runs every check at the levels that are configured; those that are off find nothing.</summary>
    public static ImmutableArray<Finding> Run(Piece piece, Configuration configuration) => Report(piece, configuration).Findings;

    /// <summary>Runs every check at the configured levels, and keeps what the piece allows.</summary>
    public static CheckReport Report(Piece piece, Configuration configuration)
    {
        var report = Report(piece, configuration.Levels.IsEmpty ? All : [.. All.Select(c => c is UnmetExpectation ? new UnmetExpectation(configuration) : c)]);
        return new(configuration.Apply(report.Findings), [.. report.Allowed.Where(a => configuration.Levelled(a.Finding) is not null)]);
    }

    private static CheckReport Report(Piece piece, ImmutableArray<Check> checks)
    {
        var found = checks.SelectMany(c => Guarded(c, piece)).ToList();
        var places = new Places(piece);
        Finding Placed(Finding f) => f.Bar is not null ? f : places.Of(f.Span) is var (bar, count) ? f with { Bar = bar, Count = f.Count ?? count } : f;
        var (left, allowed) = Silencing.Apply(piece, found, checks);
        return new(
            [.. Doubted(left).Select(Placed).OrderBy(f => f.Span.Start).ThenBy(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal)],
            [.. allowed.Select(a => a with { Finding = Placed(a.Finding) }).OrderBy(a => a.Finding.Span.Start).ThenBy(a => a.Finding.Code, StringComparer.Ordinal)]);
    }

    // A note that a name or the signature speaks against is likely another note: spelled anew by itself, it would take the better advice away.
    private static IEnumerable<Finding> Doubted(List<Finding> found)
    {
        static bool Spells(Finding f) => f.Code.StartsWith("spelling-", StringComparison.Ordinal);
        var blamed = found.Where(f => f.Severity <= Severity.Warning && (Spells(f) || f.Code.StartsWith("name-", StringComparison.Ordinal))).Select(f => f.Span).ToList();
        return blamed.Count == 0 ? found : found.Select(f => Spells(f) && f.Fixes.Any(x => x.Safe)
            && blamed.Any(b => b.Start < f.Span.End && f.Span.Start < b.End) ? f with { Fixes = [.. f.Fixes.Select(x => x with { Safe = false })] } : f);
    }

    /// <summary>The page of a check, Markdown, or null for an unknown name.</summary>
    public static string? Page(string code)
    {
        if (!All.Any(c => c.Code == code) || typeof(CheckCatalogue).Assembly.GetManifestResourceStream(code + ".md") is not { } stream)
            return null;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    // One broken check must not hide what the others know; what it found before it broke is dropped, because it may be wrong.
    private static List<Finding> Guarded(Check check, Piece piece)
    {
        try
        {
            return [.. check.Find(piece)];
        }
#pragma warning disable CA1031 // Whatever a check throws is the check's fault, not the player's.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            return [CheckFailed.Of(check, fault)];
        }
    }
}

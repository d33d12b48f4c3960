// How transposed names are written: as players read them, and in the signs that the text uses already.
using ChordLang.Grammar.Syntax;
using ChordLang.Theory.Pitches;

namespace ChordLang.Arrangement.Transposing;

/// <summary>Writes transposed names.</summary>
internal sealed class Names
{
    private const int Respelling = 12, MostInSignature = 7;
    private readonly Interval interval;
    private readonly bool signs;

    /// <summary>Looks how a text writes its symbols.</summary>
    public Names(SyntaxTree tree, Interval interval)
    {
        this.interval = interval;
        signs = tree.Lines.Any(l => l is ChartLine or RowLine && l.Text.AsSpan().IndexOfAny('♭', '♯') >= 0);
    }

    /// <summary>A written pitch's name; three accidentals and more are respelled, for no reader takes them in.</summary>
    public PitchName Pitch(PitchName name) => interval.From(name) is { Alteration: >= -2 and <= 2 } moved ? moved : Near(interval.From(name));

    /// <summary>A chord symbol's root and bass. Charts write no double accidental for a root (common practice): then both take the other spelling.</summary>
    public (string Root, string? Bass) Symbol(SymbolSyntax symbol)
    {
        if (!PitchName.TryParse(symbol.Root, out var root))
            return (symbol.Root, symbol.Bass);
        var moved = interval.From(root);
        var turn = Turn(moved, 1);
        PitchName? bass = symbol.Bass is { } b && PitchName.TryParse(b, out var name) ? PitchName.FromFifths(interval.From(name).Fifths + turn) : null;
        if (bass is { } low)
            bass = PitchName.FromFifths(low.Fifths + Turn(low, 2));
        return (Sign(PitchName.FromFifths(moved.Fifths + turn)), bass is { } written ? Sign(written) : symbol.Bass);
    }

    /// <summary>The tonic of a key whose signature lies so many fifths from its tonic's; one of more than seven signs is respelled.</summary>
    public PitchName Tonic(PitchName tonic, int signature)
    {
        var moved = interval.From(tonic);
        return PitchName.FromFifths(moved.Fifths + Signature(signature) - (signature + interval.Fifths));
    }

    /// <summary>A signature (sharps; flats negative), moved.</summary>
    public int Signature(int fifths)
    {
        fifths += interval.Fifths;
        while (fifths > MostInSignature)
            fifths -= Respelling;
        while (fifths < -MostInSignature)
            fifths += Respelling;
        return fifths;
    }

    private static PitchName Near(PitchName name) => PitchName.FromFifths(name.Fifths + Turn(name, 1));

    // How far on the line of fifths to the nearest spelling with at most so many accidentals.
    private static int Turn(PitchName name, int most)
    {
        var turn = 0;
        while (PitchName.FromFifths(name.Fifths + turn).Alteration > most)
            turn -= Respelling;
        while (PitchName.FromFifths(name.Fifths + turn).Alteration < -most)
            turn += Respelling;
        return turn;
    }

    private string Sign(PitchName name) => signs ? name.ToString().Replace('b', '♭').Replace('#', '♯') : name.ToString();
}

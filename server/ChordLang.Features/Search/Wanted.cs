// What somebody looks for in a library of lessons, read from the words they give.
using ChordLang.Arrangement.Binding;
using ChordLang.Grammar.Syntax;
using ChordLang.Harmony.Functions;
using ChordLang.Theory.Chords;
using ChordLang.Theory.Keys;

namespace ChordLang.Features.Search;

/// <summary>The words of a search, as given; null where one is not asked for.</summary>
/// <param name="Chord">A chord symbol such as <c>Dm7</c>, or a suffix such as <c>m7b5</c> for any root.</param>
/// <param name="Shape">Frets such as <c>x-3-5-4-5-x</c>, or the name of a shape.</param>
/// <param name="Role">A role such as <c>tritone-substitute</c>.</param>
/// <param name="Progression">Numerals such as <c>ii V I</c>.</param>
/// <param name="Tag">A tag.</param>
/// <param name="Key">A key such as <c>G major</c>.</param>
public sealed record WantedWords(string? Chord = null, string? Shape = null, string? Role = null, string? Progression = null, string? Tag = null, string? Key = null);

/// <summary>A search that was understood. What is null is not asked for; what is not null must all hold at one place.</summary>
/// <param name="Chord">The chord, on C where any root will do.</param>
/// <param name="AnyRoot">True where any root will do.</param>
/// <param name="Form">The form of the grip, see <see cref="GripForm"/>.</param>
/// <param name="ShapeName">The name of the shape.</param>
/// <param name="Role">The role.</param>
/// <param name="Progression">The progression.</param>
/// <param name="ProgressionText">The progression as given.</param>
/// <param name="Tag">The tag.</param>
/// <param name="Key">The key.</param>
public sealed record Wanted(
    Chord? Chord, bool AnyRoot, string? Form, string? ShapeName, string? Role, Progression? Progression, string? ProgressionText, string? Tag, Key? Key)
{
    /// <summary>Reads the words; null where they cannot be read, and <paramref name="trouble"/> says which and what to write.</summary>
    public static Wanted? Read(WantedWords words, out string? trouble)
    {
        trouble = null;
        var (chord, anyRoot) = Sought(words.Chord, ref trouble);
        var (form, name) = Grip(words.Shape, ref trouble);
        var role = words.Role?.Trim().ToLowerInvariant().Replace(' ', '-');
        if (role is not null && !ChordRoles.Names.Contains(role))
            trouble ??= $"\"{words.Role}\" is no role. Roles are {string.Join(", ", ChordRoles.Names)}.";
        string? wrong = null;
        var progression = words.Progression is null ? null : Search.Progression.Read(words.Progression, out wrong);
        if (words.Progression is not null && progression is null)
            trouble ??= $"\"{wrong}\" is no degree. Write numerals such as \"ii V I\" or \"iiø V7b9 i\": capitals have a major third, small ones a minor third.";
        var key = Keyed(words.Key, ref trouble);
        return trouble is null ? new(chord, anyRoot, form, name, role, progression, words.Progression?.Trim(), words.Tag?.Trim(), key) : null;
    }

    /// <summary>True where nothing is asked for.</summary>
    public bool Empty => Chord is null && Form is null && ShapeName is null && Role is null && Progression is null && Tag is null && Key is null;

    private static (Chord?, bool) Sought(string? symbol, ref string? trouble)
    {
        if (symbol is null)
            return (null, false);
        var reading = ChordReader.Read(symbol);
        if (reading.Chord is { } chord)
            return (chord, false);
        if (symbol.Length > 0 && ChordReader.Read("C", symbol, null).Chord is { } colour)
            return (colour, true);
        trouble ??= $"\"{symbol}\" is no chord. {reading.Trouble!.Message}";
        return (null, false);
    }

    // The notation itself reads the frets: as a shape, which is what they are.
    private static (string? Form, string? Name) Grip(string? text, ref string? trouble)
    {
        if (text is null)
            return (null, null);
        var word = text.Trim();
        if (!word.Any(char.IsWhiteSpace) && word.Length > 0)
        {
            var shapes = Binder.Bind(SyntaxTree.Parse($"shape sought = {word}\n")).Shapes;
            if (shapes.TryGetValue("sought", out var shape) && shape.Slots.Any(s => s is not null))
                return (GripForm.Of(shape.Slots), null);
            if (char.IsAsciiLetter(word[0]) && word.Any(c => char.IsAsciiLetter(c) && c is not ('x' or 'X')))
                return (null, word);
        }
        trouble ??= $"\"{text}\" is neither frets nor the name of a shape. Write one slot a string, lowest string first, such as x-3-5-4-5-x.";
        return (null, null);
    }

    private static Key? Keyed(string? text, ref string? trouble)
    {
        if (text is null)
            return null;
        var piece = Binder.Bind(SyntaxTree.Parse($"key {text}\n"));
        if (!text.Contains('\n', StringComparison.Ordinal) && piece.Settings.Key is { Tonic: not null } key)
            return key;
        trouble ??= $"\"{text}\" is no key. Write a tonic and a mode, such as \"G major\" or \"D dorian\".";
        return null;
    }
}

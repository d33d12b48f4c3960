// The signs of chord symbols in plain letters: what is printed, typed and pasted becomes one alphabet.
using System.Text;

namespace ChordLang.Theory.Chords;

/// <summary>Plain signs of a suffix, with the way back to the places they came from.</summary>
internal sealed record SymbolSigns(string Text, IReadOnlyList<int> Places)
{
    private static readonly Dictionary<char, char> Plain = new()
    {
        ['♭'] = 'b', ['♯'] = '#', ['−'] = '-', ['–'] = '-', ['‐'] = '-', ['‑'] = '-', ['△'] = 'Δ', ['∆'] = 'Δ', ['▵'] = 'Δ',
        ['Ø'] = 'ø', ['∅'] = 'ø', ['⌀'] = 'ø', ['º'] = '°', ['˚'] = '°', ['⁺'] = '+', ['⁻'] = '-', ['⁄'] = '/',
        ['⁰'] = '0', ['¹'] = '1', ['²'] = '2', ['³'] = '3', ['⁴'] = '4', ['⁵'] = '5', ['⁶'] = '6', ['⁷'] = '7', ['⁸'] = '8', ['⁹'] = '9',
        ['（'] = '(', ['）'] = ')', ['，'] = ',',
    };

    /// <summary>Takes blanks out and writes each sign plainly. Places[i] is where sign i stood; one more marks the end.</summary>
    public static SymbolSigns Of(string text)
    {
        var (plain, places) = (new StringBuilder(text.Length), new List<int>(text.Length + 1));
        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsWhiteSpace(text[i]))
                continue;
            plain.Append(Plain.GetValueOrDefault(text[i], text[i]));
            places.Add(i);
        }
        places.Add(text.Length);
        return new(plain.ToString(), places);
    }
}

// Writes a reading of tones as the symbol that players write for it.
using System.Text;
using ChordLang.Theory.Pitches;

namespace ChordLang.Harmony.Naming;

/// <summary>The suffix of a reading. Common practice: the highest plain tension gives the number, the rest follows in order.</summary>
public static class ReadingSymbol
{
    /// <summary>What follows the root: <c>m7b5</c>, <c>13(b9,#11)</c>, <c>sus2</c>.</summary>
    public static string Suffix(ToneReading reading)
    {
        var rest = reading.Tensions.ToList();
        var third = reading.Third?.ToString();
        var fifth = reading.Fifth?.ToString();
        if (third is null && fifth == "5" && reading.Seventh is null && rest.Count == 0)
            return "5";
        if (third == "b3" && fifth == "b5" && reading.Seventh is null or { Alteration: -2 })
            return (reading.Seventh is null ? "dim" : "dim7") + Altered(rest, null, "dim", false);
        var tall = reading.Seventh is { Number: 7 };
        var number = Number(reading, rest);
        var text = new StringBuilder(third == "b3" ? "m" : "");
        if (fifth == "#5" && number.Length == 0 && third == "3")
            text.Append("aug");
        text.Append(reading.Seventh switch
        {
            { Number: 7, Alteration: 0 } when third == "b3" => $"(maj{number})",
            { Number: 7, Alteration: 0 } => $"maj{number}",
            _ => number,
        });
        if (third is "4" or "2")
            text.Append("sus").Append(third);
        var altered = fifth is "b5" || fifth is "#5" && (number.Length > 0 || third != "3") ? reading.Fifth : null;
        text.Append(Altered(rest, altered, text.ToString(), tall));
        if (third is null)
            text.Append("no3");
        return text.ToString();
    }

    // Takes the tensions that the number speaks for out of the rest.
    private static string Number(ToneReading reading, List<Degree> rest)
    {
        bool Take(int number) => rest.Remove(new Degree(number, 0));
        if (reading.Seventh is null)
            return "";
        if (reading.Seventh is { Number: 6 })
            return reading.Third?.Number != 2 && Take(9) ? "6/9" : "6";
        var plain = reading.Third != new Degree(3, 0);
        if (Take(13))
        {
            Take(9);
            if (plain)
                Take(11);
            return "13";
        }
        if (plain && Take(11))
        {
            Take(9);
            return "11";
        }
        return Take(9) ? "9" : "7";
    }

    private static string Altered(List<Degree> rest, Degree? fifth, string before, bool tall)
    {
        var parts = (fifth is { } f ? [f] : Array.Empty<Degree>()).Concat(rest).OrderBy(d => d.Number).ThenBy(d => d.Alteration)
            .Select(d => d.Number == 5 || tall && d.Alteration != 0 ? d.ToString() : "add" + d).ToList();
        return parts switch
        {
            [] => "",
            [var one] when before.Length > 0 || one.StartsWith("add", StringComparison.Ordinal) && one.Length < 6 && char.IsAsciiDigit(one[3]) => one,
            _ => $"({string.Join(',', parts)})",
        };
    }
}

// Prints bound music as short lines, so that a test says text in and text out.
using System.Text;
using ChordLang.Arrangement.Binding;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;
using ChordLang.Testing;

namespace ChordLang.Arrangement.Tests.Binding;

/// <summary>The readable form of a piece. Times are whole notes from the start of the piece.</summary>
internal static class Dump
{
    /// <summary>Binds a text with \n line ends.</summary>
    public static Piece Bind(string text, ILibrary? library = null) => Binder.Bind(SyntaxTree.Parse(text), library);

    /// <summary>Bars, chords and events, a line each.</summary>
    public static string Print(Piece piece)
    {
        var text = new StringBuilder();
        foreach (var bar in piece.Bars)
        {
            text.Append($"bar {bar.Number} {bar.Start} to {bar.End}:");
            foreach (var chord in bar.Chords)
                text.Append($" {(chord.Carried ? "(" : "")}{bar.CountOf(chord.Start)} {chord.Symbol?.Text ?? "N.C."}{(chord.Symbol is not null && chord.Chord is null ? "?" : "")}{(chord.Carried ? ")" : "")}");
            text.Append('\n');
            foreach (var row in bar.Rows)
                text.Append($"  {row.VoiceKey}{(row.Borrowed ? " (borrowed)" : "")}: {string.Join("; ", row.Events.Select(e => Print(bar, e)))}\n");
        }
        return text.ToString();
    }

    /// <summary>An event: its count, what it does, its notes with string and fret, and where they end where that is not the event's end.</summary>
    public static string Print(Bar bar, Event e)
    {
        var text = new StringBuilder($"{CountSyntax.Write(e.Offset)} ");
        if (e.Kind != EventKind.Struck)
            text.Append(e.Kind.ToString().ToLowerInvariant()).Append(e.Kind == EventKind.Tied ? " " : "");
        text.Append(string.Join('+', e.Notes.Select(n => Print(n, e.End))));
        return text.Append($" to {(e.End == bar.End ? "end" : bar.CountOf(e.End))}").ToString();
    }

    /// <summary>A note: <c>G4@2/8</c> is G4 on string 2, fret 8; <c>~5/4</c> is its end, <c>!</c> before it says that its string cut it.</summary>
    public static string Print(Note n, Rational? end = null) =>
        $"{(n.Dead ? "x" : "")}{n.Pitch}{(n.String is { } s ? $"@{s}" : "")}{(n.Fret is { } f ? $"/{f}" : "")}{(n.End < n.WantedEnd ? $"!{n.End}" : n.End == end ? "" : $"~{n.End}")}";

    /// <summary>Binds a text without the lines of its marks, and prints it.</summary>
    public static string Of(string text) => Print(Bind(text));

    /// <summary>Binds a marked text: what is told must be what is marked, and nothing is wrong with its syntax.</summary>
    public static Piece ShouldBindAsMarked(string marked, ILibrary? library = null)
    {
        var text = MarkedText.Read(marked);
        var piece = Bind(text.Text, library);
        Assert.Equal([], Snippet.Found(piece.Tree).Select(m => m.Words));
        Snippet.ShouldFind(text, [.. piece.Troubles.Select(t => new Mark(t.Span.Start, t.Span.Length, t.Code, t.Message))]);
        return piece;
    }

    /// <summary>The text after the first repair of its only trouble; nothing is told of it any more.</summary>
    public static string FirstFix(string text, ILibrary? library = null)
    {
        var piece = Bind(text, library);
        var trouble = Assert.Single(piece.Troubles);
        Assert.NotEmpty(trouble.Fixes);
        var mended = piece.Tree.Source.With(trouble.Fixes[0].Edits).Text;
        Assert.Equal([], Bind(mended, library).Troubles.Select(t => t.Message));
        return mended;
    }
}

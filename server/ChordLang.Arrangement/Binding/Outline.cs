// What the lines of a piece are to each other: bars with their rows, sections, form words and settings in force.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>A bar before it is bound.</summary>
/// <param name="Line">Its chart line.</param>
/// <param name="Syntax">Its syntax.</param>
/// <param name="Settings">What is in force.</param>
/// <param name="Pickup">Line and count of the pickup it is, or null.</param>
internal sealed record BarPlan(int Line, BarSyntax Syntax, Settings Settings, (int Line, CountSyntax Count)? Pickup)
{
    /// <summary>The lines of its rows.</summary>
    public List<int> Rows { get; } = [];

    /// <summary>Its prose.</summary>
    public List<string> Prose { get; } = [];
}

/// <summary>What a step of the form is.</summary>
internal enum StepKind { Bar, Word, Again }

/// <summary>A step of the form, in the order of the text.</summary>
/// <param name="Kind">A bar, a form word, or a section played again.</param>
/// <param name="Line">Its line.</param>
/// <param name="Index">Of the bar, or of the section meant.</param>
/// <param name="Word">The form word.</param>
/// <param name="Number">Times of a repeat, number of an ending.</param>
internal readonly record struct Step(StepKind Kind, int Line, int Index, FormKind Word = default, int Number = 0);

/// <summary>A section before it is bound; steps from <paramref name="FirstStep"/> up to <see cref="EndStep"/> are its own.</summary>
internal sealed record SectionPlan(string Name, int Line, int FirstBar, int FirstStep, SectionPlan? Of)
{
    /// <summary>How many bars.</summary>
    public int BarCount { get; set; }

    /// <summary>The step behind its last.</summary>
    public int EndStep { get; set; }

    /// <summary>Its prose.</summary>
    public List<string> Prose { get; } = [];
}

/// <summary>The outline of a piece.</summary>
internal sealed record Outline(
    ImmutableArray<BarPlan> Bars, ImmutableArray<SectionPlan> Sections, ImmutableArray<Step> Steps, ImmutableArray<Allow> Allows,
    ImmutableArray<Expected> Expectations, ImmutableArray<string> Prose, SettingReader Settings, Settings Start);

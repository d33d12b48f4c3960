// An action that a reader of a lesson can take: plain data, whatever editor shows it.
using System.Collections.Immutable;
using ChordLang.Checks.Catalogue;
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Actions;

/// <summary>What an action is for.</summary>
public enum ActionKind
{
    /// <summary>Mends or silences a finding.</summary>
    Fix,
    /// <summary>Writes the same or other music in another way.</summary>
    Rewrite,
    /// <summary>Gives something a name.</summary>
    Extract,
    /// <summary>Writes out what has a name.</summary>
    Inline,
    /// <summary>Mends all that can be mended safely.</summary>
    FixAll,
}

/// <summary>An action.</summary>
/// <param name="Id">Tells it from the other actions of its place; the same as long as the text is the same.</param>
/// <param name="Title">What it does, as an order.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Work">Works out its edits, in offsets of the text; they do not overlap.</param>
public sealed record LessonAction(string Id, string Title, ActionKind Kind, Func<ImmutableArray<TextEdit>> Work)
{
    private readonly Lazy<ImmutableArray<TextEdit>> edits = new(Work);

    /// <summary>Its edits.</summary>
    public ImmutableArray<TextEdit> Edits => edits.Value;

    /// <summary>The finding it mends, or null.</summary>
    public Finding? Finding { get; init; }

    /// <summary>True for the one action that most would take.</summary>
    public bool Preferred { get; init; }

    /// <summary>True where its edits are costly, so that they should wait until it is chosen.</summary>
    public bool Costly { get; init; }
}

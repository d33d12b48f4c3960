// What must be said wherever a stretch is judged.
namespace ChordLang.Fretboard.Hands;

/// <summary>The caution that goes with every statement about a stretch.</summary>
public static class Caution
{
    /// <summary>Shown wherever a stretch is judged.</summary>
    public const string Text =
        "Hands differ: these millimetres are a guide, not a goal. Stop when it hurts, and ask a teacher or a doctor before you train a stretch.";
}

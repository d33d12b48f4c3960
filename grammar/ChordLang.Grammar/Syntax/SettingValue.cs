// Settings and their values as written; what they mean in music is read elsewhere.
using System.Collections.Immutable;

namespace ChordLang.Grammar.Syntax;

/// <summary>The settings, by their words.</summary>
public enum SettingKind { Title, By, Key, Meter, Tempo, Feel, Strings, Capo, Frets, ScaleLength, Reach, Naming, Position, Tags }

/// <summary>A setting's value.</summary>
public abstract record SettingValue;

/// <summary>Free text: title, by, feel.</summary>
public sealed record TextValue(string Text) : SettingValue;

/// <summary>A whole number: capo, frets, position.</summary>
public sealed record NumberValue(int Number) : SettingValue;

/// <summary><c>key G major</c>: tonic and mode, or <c>key 2 flats</c>: only the signature.</summary>
/// <param name="Tonic">The tonic, or null where only the signature is given.</param>
/// <param name="Mode">The mode's word in small letters, or empty where only the signature is given.</param>
/// <param name="Fifths">Sharps (flats negative) where only the signature is given.</param>
public sealed record KeyValue(PitchSyntax? Tonic, string Mode, int Fifths) : SettingValue;

/// <summary><c>meter 6/8</c>.</summary>
public sealed record MeterValue(int Counts, int Unit) : SettingValue;

/// <summary><c>tempo 66</c>, <c>tempo rubato around 60</c>, <c>tempo rubato</c>.</summary>
/// <param name="BeatsPerMinute">Beats a minute, or null.</param>
/// <param name="Rubato">True where the time is free.</param>
public sealed record TempoValue(double? BeatsPerMinute, bool Rubato) : SettingValue;

/// <summary><c>strings E2 A2 D3 G3 B3 E4</c>, as written.</summary>
public sealed record TuningValue(ImmutableArray<PitchSyntax> Open) : SettingValue;

/// <summary><c>scale-length 628 mm</c> (inches are turned into millimetres).</summary>
public sealed record LengthValue(double Millimetres) : SettingValue;

/// <summary><c>reach 5 to 9</c>.</summary>
public sealed record ReachValue(int From, int To) : SettingValue;

/// <summary><c>naming jazz</c> or <c>strict</c>.</summary>
public sealed record NamingValue(bool Strict) : SettingValue;

/// <summary><c>tags ballad, rubato</c>.</summary>
public sealed record TagsValue(ImmutableArray<string> Tags) : SettingValue;

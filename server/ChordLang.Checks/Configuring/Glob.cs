// The one seam to the library that reads globs.
using Microsoft.Extensions.FileSystemGlobbing;

namespace ChordLang.Checks.Configuring;

/// <summary>Globs: <c>*</c> stands for any part of a name, <c>**</c> for any folders.</summary>
internal static class Glob
{
    /// <summary>True where a path, with / between folders, is meant by a glob. Capitals matter; no file is looked at.</summary>
    public static bool Matches(string glob, string path) =>
        new Matcher(StringComparison.Ordinal).AddInclude(glob).Match("/", "/" + path).HasMatches;
}

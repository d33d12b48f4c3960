// Tells when lessons, or what is configured for them, change on disk.
using System.Threading.Channels;

namespace ChordLang.Server.Workspace;

/// <summary>Watches files and folders until it is disposed of.</summary>
internal sealed class FileChanges : IDisposable
{
    private readonly Channel<int> changes = Channel.CreateBounded<int>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly List<FileSystemWatcher> watchers = [];

    /// <summary>Begins to watch: folders with all below them, files by the folder that holds them, for editors replace a file rather than write into it.</summary>
    public FileChanges(IEnumerable<string> paths)
    {
        foreach (var folder in paths.Select(p => Path.GetFullPath(Directory.Exists(p) ? p : Path.GetDirectoryName(Path.GetFullPath(p))!)).Distinct(StringComparer.Ordinal).Where(Directory.Exists))
            foreach (var filter in (string[])["*.chl", Configurations.FileName])
            {
                var watcher = new FileSystemWatcher(folder, filter) { IncludeSubdirectories = true };
                watcher.Changed += Tell;
                watcher.Created += Tell;
                watcher.Deleted += Tell;
                watcher.Renamed += Tell;
                watcher.EnableRaisingEvents = true;
                watchers.Add(watcher);
            }
    }

    /// <summary>One item for each time that something changed since the last was taken; waits for the next.</summary>
    public IEnumerable<int> Rounds()
    {
        while (changes.Reader.WaitToReadAsync().AsTask().GetAwaiter().GetResult())
            while (changes.Reader.TryRead(out var round))
                yield return round;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var watcher in watchers)
            watcher.Dispose();
        changes.Writer.TryComplete();
    }

    private void Tell(object sender, FileSystemEventArgs e) => changes.Writer.TryWrite(0);
}

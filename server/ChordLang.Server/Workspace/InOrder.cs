// The same work on many files, on all cores; what comes of it comes out in their order, and little of it waits in memory.
namespace ChordLang.Server.Workspace;

/// <summary>Works on all cores, in order.</summary>
internal static class InOrder
{
    // How many results each core may be ahead of the one that is waited for: enough that a long file does not stop the others, few enough to be held.
    private const int Ahead = 8;

    /// <summary>The result for each item, in the order of the items, while later ones are being worked out.</summary>
    /// <param name="items">The items.</param>
    /// <param name="work">What is done with each; called by several threads. What it throws is thrown where its result would have come.</param>
    /// <param name="workers">How many threads; none: one a core.</param>
    public static IEnumerable<TResult> Of<TItem, TResult>(IReadOnlyList<TItem> items, Func<TItem, TResult> work, int? workers = null)
    {
        var count = Math.Min(workers ?? Environment.ProcessorCount, items.Count);
        return count > 1 ? Parallel(items, work, count) : items.Select(work);
    }

    private static IEnumerable<TResult> Parallel<TItem, TResult>(IReadOnlyList<TItem> items, Func<TItem, TResult> work, int count)
    {
        var results = new TaskCompletionSource<TResult>?[items.Count];
        for (var i = 0; i < results.Length; i++)
            results[i] = new(TaskCreationOptions.RunContinuationsAsynchronously);
        using var room = new SemaphoreSlim(count * Ahead);
        using var stop = new CancellationTokenSource();
        var next = -1;
        var threads = Enumerable.Range(0, count).Select(_ => new Thread(Work) { IsBackground = true }).ToList();
        threads.ForEach(t => t.Start());
        try
        {
            for (var i = 0; i < results.Length; i++)
            {
                var result = results[i]!.Task.GetAwaiter().GetResult();
                results[i] = null;
                room.Release();
                yield return result;
            }
        }
        finally
        {
            stop.Cancel();
            threads.ForEach(t => t.Join());
        }

        void Work()
        {
            try
            {
                while (true)
                {
                    room.Wait(stop.Token);
                    var mine = Interlocked.Increment(ref next);
                    if (mine >= results.Length)
                        return;
                    Take(results[mine]!, items[mine]);
                }
            }
            catch (OperationCanceledException)
            {
                // Nobody waits for more.
            }
        }

        void Take(TaskCompletionSource<TResult> result, TItem item)
        {
            try
            {
                result.SetResult(work(item));
            }
#pragma warning disable CA1031 // It is thrown again where the result is waited for.
            catch (Exception e)
#pragma warning restore CA1031
            {
                result.SetException(e);
            }
        }
    }
}

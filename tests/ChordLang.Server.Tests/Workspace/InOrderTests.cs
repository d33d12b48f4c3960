// The same work on many files, on several threads: the order is kept, little is held, and trouble comes where it belongs.
using ChordLang.Server.Workspace;

namespace ChordLang.Server.Tests.Workspace;

public sealed class InOrderTests
{
    private const int Workers = 4, Ahead = 8;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(2000)]
    public void Results_come_in_the_order_of_the_items(int count) =>
        Assert.Equal(Enumerable.Range(0, count).Select(i => i * i), InOrder.Of([.. Enumerable.Range(0, count)], i => i * i, Workers));

    [Fact]
    public void No_more_is_worked_out_than_a_few_ahead()
    {
        var (taken, farthest) = (0, 0);
        foreach (var ahead in InOrder.Of([.. Enumerable.Range(0, 500)], i => i - Volatile.Read(ref taken), Workers))
        {
            taken++;
            farthest = Math.Max(farthest, ahead);
        }
        // One more may have been let in before this loop has counted it.
        Assert.InRange(farthest, 0, Workers * Ahead + 1);
    }

    [Fact]
    public void What_breaks_is_thrown_where_its_result_would_have_come()
    {
        var seen = new List<int>();
        var thrown = Assert.Throws<FormatException>(() =>
        {
            foreach (var i in InOrder.Of([.. Enumerable.Range(0, 100)], i => i == 50 ? throw new FormatException() : i, Workers))
                seen.Add(i);
        });
        Assert.Equal(Enumerable.Range(0, 50), seen);
        Assert.NotNull(thrown);
    }

    [Fact]
    public void Who_wants_no_more_ends_the_work()
    {
        var begun = 0;
        Assert.Equal([0, 1, 2], InOrder.Of([.. Enumerable.Range(0, 10_000)], i => { Interlocked.Increment(ref begun); return i; }, Workers).Take(3));
        // All threads have ended, so the number stands.
        Assert.InRange(begun, 3, 3 + Workers * Ahead);
    }
}

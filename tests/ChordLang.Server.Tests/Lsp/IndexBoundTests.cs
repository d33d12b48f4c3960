// The index of a library is bounded, and says where it stops.
using System.IO.Pipelines;
using System.Text;
using ChordLang.Server.Lsp;
using StreamJsonRpc;

namespace ChordLang.Server.Tests.Lsp;

public sealed class IndexBoundTests
{
    private const int Most = 12;

    [Fact]
    public async Task No_more_lessons_are_kept_than_may_be_and_the_user_is_told()
    {
        using var folder = new TemporaryFolder();
        for (var i = 0; i < Most + 5; i++)
            folder.Write($"lesson-{i}.chl", "title A\n| C\n");
        var (index, said) = Index();
        index.Add(folder.Path);
        await index.Whole;
        Assert.Equal(Most, index.Lessons.Count());
        Assert.Contains("window/showMessage", said(), StringComparison.Ordinal);
        Assert.Contains("5 are left out", said(), StringComparison.Ordinal);
        // What comes later is not kept either; what is kept is read again, and makes room when it goes.
        index.Renew([folder.Write("later.chl", "title B\n| C\n")]);
        await index.Whole;
        Assert.Equal(Most, index.Lessons.Count());
        var gone = index.Lessons.First().Path;
        File.Delete(gone);
        index.Renew([gone]);
        await index.Whole;
        index.Renew([Path.Combine(folder.Path, "later.chl")]);
        await index.Whole;
        Assert.Contains(index.Lessons, l => l.Title == "B");
    }

    [Fact]
    public async Task A_lesson_of_many_names_is_kept_in_part()
    {
        using var folder = new TemporaryFolder();
        var long1 = new string('x', 5000);
        folder.Write("one.chl", $"title {long1}\ntags {string.Join(", ", Enumerable.Range(0, 5000).Select(i => $"tag-{i}"))}\n" + string.Concat(Enumerable.Range(0, 5000).Select(i => $"section Part {i} {long1[..300]}\n")));
        var (index, _) = Index();
        index.Add(folder.Path);
        await index.Whole;
        var lesson = Assert.Single(index.Lessons);
        Assert.True(lesson.Names.Count <= 500 && lesson.Tags.Count <= 500 && lesson.Title.Length <= 200);
        Assert.All(lesson.Names, n => Assert.True(n.Name.Length <= 200));
    }

    private static (LessonIndex Index, Func<string> Said) Index()
    {
        // What is sent is in the pipe when the one who sends it goes on.
        var (output, all) = (new Pipe(), new StringBuilder());
        var rpc = new JsonRpc(new HeaderDelimitedMessageHandler(output.Writer, PipeReader.Create(Stream.Null), new SystemTextJsonFormatter { JsonSerializerOptions = LspJson.Wire }));
        return (new(new(rpc), PositionEncoding.Utf16, Most), Said);

        string Said()
        {
            if (output.Reader.TryRead(out var read))
            {
                all.Append(Encoding.UTF8.GetString(read.Buffer));
                output.Reader.AdvanceTo(read.Buffer.End);
            }
            return all.ToString();
        }
    }
}

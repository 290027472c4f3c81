using System.Numerics;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Meshes;

public sealed class ExactWeldTests
{
    [Fact]
    public void Vertices_are_numbered_as_they_first_appear()
    {
        using var weld = new ExactWeld();
        Assert.Equal(0, weld.Add(new Vector3(1, 2, 3)));
        Assert.Equal(1, weld.Add(new Vector3(1, 2, 4)));
        Assert.Equal(0, weld.Add(new Vector3(1, 2, 3)));
        Assert.Equal([1, 2, 3, 1, 2, 4], weld.ToPositions());
    }

    [Fact]
    public void It_agrees_with_a_dictionary_while_it_grows_from_nothing()
    {
        var random = new Random(11);
        var corners = new float[3 * 60_000];
        for (var i = 0; i < corners.Length; i++) corners[i] = random.Next(-30, 30) / 7f;
        var numbers = new int[60_000];
        using var weld = new ExactWeld(1);
        weld.Add(corners, numbers);

        var expected = new Dictionary<(float, float, float), int>();
        for (var i = 0; i < numbers.Length; i++)
        {
            var key = (corners[3 * i], corners[(3 * i) + 1], corners[(3 * i) + 2]);
            if (!expected.TryGetValue(key, out var number)) expected[key] = number = expected.Count;
            Assert.Equal(number, numbers[i]);
        }

        Assert.Equal(expected.Count, weld.VertexCount);
    }

    [Fact]
    public void Neighbouring_numbers_stay_apart()
    {
        using var weld = new ExactWeld();
        Assert.NotEqual(weld.Add(new Vector3(1, 0, 0)), weld.Add(new Vector3(MathF.BitIncrement(1), 0, 0)));
    }

    [Fact]
    public void A_soup_of_a_box_becomes_the_box_and_unused_vertices_go()
    {
        var box = Solids.Box(1, 2, 3);
        var corners = box.Indices.ToArray().SelectMany(i => box.Positions.Slice(3 * i, 3).ToArray());
        var soup = new TriangleMesh([.. corners, 99, 99, 99], [.. Enumerable.Range(0, 36)]);
        var welded = ExactWeld.Of(soup);
        Assert.Equal(8, welded.VertexCount);
        Assert.Equal(12, welded.TriangleCount);
    }
}

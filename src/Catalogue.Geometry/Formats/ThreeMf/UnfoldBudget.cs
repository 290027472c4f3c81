namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>
/// How much a package may unfold to: text when its parts are decompressed, memory when its meshes are stored and placed.
/// A real package stays far below; one made to exhaust the machine does not get far.
/// </summary>
/// <param name="packageBytes">The size of the package itself.</param>
/// <param name="maxTriangles">Over all objects, and again over all build items.</param>
internal sealed class UnfoldBudget(long packageBytes, int maxTriangles)
{
    /// <summary>Text over package size. Meshes written as XML shrink to a fifth or a tenth, the most regular ones to a fortieth (measured).</summary>
    private const int MostText = 60;

    /// <summary>Text any package may have, however well it is compressed.</summary>
    private const long FreeText = 8L << 20;

    /// <summary>Working memory over package size; a closed mesh needs 64 bytes per triangle and is seldom packed into fewer than 8.</summary>
    private const int MostMesh = 9;

    private const long FreeMesh = 40L << 20;

    private long _text = FreeText + (MostText * packageBytes);
    private long _mesh = FreeMesh + (MostMesh * packageBytes);
    private long _objectTriangles = maxTriangles;
    private long _itemTriangles = maxTriangles;

    public void TakeText(long bytes)
    {
        if ((_text -= bytes) >= 0) return;
        throw Exceeded($"The 3MF package has {Kibibytes:0.#} KiB but unfolds to far more text than a mesh of that size can. It was not read further. Save fewer copies in one file, or export it again.");
    }

    public void TakeMesh(long bytes)
    {
        if ((_mesh -= bytes) >= 0) return;
        throw Exceeded($"The 3MF package has {Kibibytes:0.#} KiB but unfolds to far more mesh data than a mesh of that size can. It was not read further. Save fewer copies in one file, or export it again.");
    }

    public void GiveBackMesh(long bytes) => _mesh += bytes;

    public void TakeObjectTriangles(int count) => Take(ref _objectTriangles, count);

    public void TakeItemTriangles(int count) => Take(ref _itemTriangles, count);

    private void Take(ref long left, int count)
    {
        if ((left -= count) < 0) throw CornerLimits.TooMany(maxTriangles + 1L, maxTriangles);
    }

    private double Kibibytes => packageBytes / 1024.0;

    private static MeshFormatException Exceeded(FormattableString said) => new("unfolds-too-large", said);
}

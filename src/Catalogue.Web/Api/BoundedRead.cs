namespace Catalogue.Web.Api;

/// <summary>Uploads that are worked on as a whole, in memory.</summary>
internal static class BoundedRead
{
    /// <summary>All of it, at its beginning; what <paramref name="refusal"/> makes is thrown as soon as more than <paramref name="most"/> bytes came.</summary>
    public static async Task<MemoryStream> ReadWholeAsync(this Stream content, long most, Func<Exception> refusal, CancellationToken cancellation)
    {
        var whole = new MemoryStream();
        var buffer = new byte[81_920];
        while (await content.ReadAsync(buffer, cancellation) is > 0 and var read)
        {
            if (whole.Length + read > most) throw refusal();
            whole.Write(buffer, 0, read);
        }

        whole.Position = 0;
        return whole;
    }
}

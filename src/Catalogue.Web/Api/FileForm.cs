using System.Text;
using Catalogue.Model;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Api;

/// <summary>An upload with a few small fields beside the file: a multipart form, or the bare file with the fields in the address.</summary>
/// <remarks>The file goes straight to <c>keep</c> as it arrives and is never held here. Fields may come before or after it.</remarks>
internal sealed class FileForm<T>
{
    private const int MaxFieldBytes = 16 * 1024;
    private const int MaxSections = 40;
    private readonly List<(string Name, string Value)> _fields = [];

    private FileForm()
    {
    }

    public string FileName { get; private set; } = "";

    /// <summary>What <c>keep</c> made of the file.</summary>
    public T File { get; private set; } = default!;

    /// <summary>The field's value; null when it was not sent or is blank.</summary>
    public string? Field(string name) => Fields(name).FirstOrDefault(v => !string.IsNullOrWhiteSpace(v));

    public IEnumerable<string> Fields(string name) => _fields.Where(f => f.Name == name).Select(f => f.Value);

    /// <param name="keep">Reads the file to its end.</param>
    /// <param name="beforeFile">Called with the fields that came before the file, and may refuse by throwing.</param>
    /// <exception cref="RuleBrokenException"><c>file-missing</c>, <c>too-many-files</c>.</exception>
    /// <exception cref="InvalidDataException">The form is malformed or ends in the middle.</exception>
    public static async Task<FileForm<T>> ReadAsync(
        HttpRequest request, Func<Stream, CancellationToken, Task<T>> keep, Func<FileForm<T>, Task>? beforeFile, CancellationToken cancellation)
    {
        var form = new FileForm<T>();
        foreach (var (name, values) in request.Query)
            form._fields.AddRange(values.Select(v => (name, v ?? "")));
        var type = MediaTypeHeaderValue.TryParse(request.ContentType, out var parsed) ? parsed : null;
        if (type is null || !type.MediaType.StartsWith("multipart/", StringComparison.OrdinalIgnoreCase))
        {
            if (request.ContentLength == 0) throw Missing();
            form.FileName = form.Field("file") ?? "";
            if (beforeFile is not null) await beforeFile(form);
            form.File = await keep(new UploadStream(request.Body), cancellation);
            return form;
        }

        var boundary = HeaderUtilities.RemoveQuotes(type.Boundary).Value;
        if (string.IsNullOrEmpty(boundary) || boundary.Length > 100) throw new InvalidDataException("The form names no usable boundary between its parts.");
        await form.ReadSectionsAsync(new MultipartReader(boundary, request.Body), keep, beforeFile, cancellation);
        return form;
    }

    private async Task ReadSectionsAsync(
        MultipartReader reader, Func<Stream, CancellationToken, Task<T>> keep, Func<FileForm<T>, Task>? beforeFile, CancellationToken cancellation)
    {
        var (sections, files) = (0, 0);
        while (await NextAsync(reader, cancellation) is { } section)
        {
            if (++sections > MaxSections) throw new InvalidDataException("The form has too many parts.");
            if (!ContentDispositionHeaderValue.TryParse(section.ContentDisposition, out var disposition))
                throw new InvalidDataException("A part of the form has no name.");
            var fileName = disposition.FileNameStar.HasValue ? disposition.FileNameStar : disposition.FileName;
            if (fileName.HasValue)
            {
                if (++files > 1) throw new RuleBrokenException("too-many-files", $"More than one file was sent. Nothing was kept; upload one file at a time.");
                FileName = HeaderUtilities.RemoveQuotes(fileName).Value ?? "";
                if (beforeFile is not null) await beforeFile(this);
                File = await keep(new UploadStream(section.Body), cancellation);
            }
            else
            {
                _fields.Add((HeaderUtilities.RemoveQuotes(disposition.Name).Value ?? "", await ValueOfAsync(section, cancellation)));
            }
        }

        if (files == 0) throw Missing();
    }

    private static async Task<MultipartSection?> NextAsync(MultipartReader reader, CancellationToken cancellation)
    {
        try
        {
            return await reader.ReadNextSectionAsync(cancellation);
        }
        catch (IOException cut) when (cut is not BadHttpRequestException)
        {
            throw new InvalidDataException("The upload ended in the middle.", cut);
        }
    }

    private static async Task<string> ValueOfAsync(MultipartSection section, CancellationToken cancellation)
    {
        var buffer = new byte[MaxFieldBytes + 1];
        var length = await new UploadStream(section.Body).ReadAtLeastAsync(buffer, buffer.Length, throwOnEndOfStream: false, cancellation);
        if (length > MaxFieldBytes) throw new InvalidDataException("A field of the form is too long.");
        return Encoding.UTF8.GetString(buffer, 0, length);
    }

    private static RuleBrokenException Missing() => new("file-missing", $"No file was sent. Nothing was kept; choose a file and upload again.");
}

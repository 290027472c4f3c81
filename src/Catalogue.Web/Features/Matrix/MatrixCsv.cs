using System.Text;
using Catalogue.Data.Ranges;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Matrix;

/// <summary>The matrix as comma-separated values (RFC 4180), UTF-8 with a mark that spreadsheets look for: per process the verdict and why.</summary>
internal static class MatrixCsv
{
    public static byte[] Write(IReadOnlyList<string> processes, IReadOnlyList<MatrixRow> rows)
    {
        var text = new StringBuilder("figure,title");
        foreach (var process in processes) text.Append(',').Append(process).Append(',').Append(process).Append(" why");
        text.Append("\r\n");
        foreach (var row in rows)
        {
            text.Append(Field(row.Figure.Slug)).Append(',').Append(Field(row.Figure.Title));
            foreach (var cell in row.Cells)
                text.Append(',').Append(cell.Verdict.Verdict.Code()).Append(',').Append(Field(VerdictSentence.Of(cell.Verdict, withVolume: true).ToString()));
            text.Append("\r\n");
        }

        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())];
    }

    /// <summary>Quoted where it has to be; a beginning that a spreadsheet takes for a formula gets an apostrophe before it.</summary>
    private static string Field(string value)
    {
        if (value.Length > 0 && value[0] is '=' or '+' or '-' or '@' or '\t' or '\r') value = "'" + value;
        return value.AsSpan().ContainsAny(",\"\r\n") ? $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : value;
    }
}

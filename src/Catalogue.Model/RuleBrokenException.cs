namespace Catalogue.Model;

/// <summary>A rule of the catalogue that a request would break. The message says what happened, what was kept and what to do.</summary>
/// <remarks><see cref="Code"/> is stable: it becomes the last segment of the problem's <c>type</c> over HTTP.</remarks>
public sealed class RuleBrokenException : Exception
{
    public RuleBrokenException(string code, string message)
        : base(message) => Code = code;

    public string Code { get; }
}

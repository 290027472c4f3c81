namespace Catalogue.Model;

/// <summary>A rule of the catalogue that a request would break. The message says what happened, what was kept and what to do.</summary>
/// <remarks><see cref="Code"/> is stable: it becomes the last segment of the problem's <c>type</c> over HTTP.</remarks>
public sealed class RuleBrokenException : Exception
{
    public RuleBrokenException(string code, string message)
        : base(message) => Code = code;

    /// <param name="obstacles">Everything that stands in the way, where there may be more than one thing.</param>
    public RuleBrokenException(string code, string message, IReadOnlyList<Obstacle> obstacles)
        : this(code, message) => Obstacles = obstacles;

    public string Code { get; }
    public IReadOnlyList<Obstacle> Obstacles { get; } = [];
}

/// <summary>One thing that stands in the way of publishing, with the part it is about (its slug), if it is about one.</summary>
public sealed record Obstacle(string Code, string Message, string? Part);

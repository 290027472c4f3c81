using System.Text.Json.Serialization;

namespace Catalogue.Model;

/// <summary>A rule of the catalogue that a request would break. The sentence says what happened, what was kept and what to do; <see cref="Exception.Message"/> is its English.</summary>
/// <remarks><see cref="Code"/> is stable: it becomes the last segment of the problem's <c>type</c> over HTTP.</remarks>
public sealed class RuleBrokenException : Exception
{
    public RuleBrokenException(string code, Sentence said)
        : base(English(said)) => (Code, Said) = (code, said);

    /// <param name="obstacles">Everything that stands in the way, where there may be more than one thing.</param>
    public RuleBrokenException(string code, Sentence said, IReadOnlyList<Obstacle> obstacles)
        : this(code, said) => Obstacles = obstacles;

    public string Code { get; }

    /// <summary>For people, in their language.</summary>
    public Sentence Said { get; }

    public IReadOnlyList<Obstacle> Obstacles { get; } = [];

    private static string English(Sentence said)
    {
        ArgumentNullException.ThrowIfNull(said);
        return said.English;
    }
}

/// <summary>One thing that stands in the way of publishing, with the part it is about (its slug), if it is about one.</summary>
public sealed record Obstacle(string Code, [property: JsonConverter(typeof(SentenceAsEnglish))] Sentence Message, string? Part);

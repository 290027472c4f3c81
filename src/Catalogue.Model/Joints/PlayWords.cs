namespace Catalogue.Model.Joints;

/// <summary>What is said of the play between two printed pieces, by what they are called.</summary>
/// <param name="Formula">By the share of each diameter that the process may miss, %.</param>
/// <param name="DoesNotGoIn">By the play to leave, mm.</param>
/// <param name="Sand">When the process may take all of the play.</param>
/// <param name="Wobbles">When there is too much of it.</param>
internal sealed record PlayWords(Func<double, Sentence> Formula, Func<double, Sentence> DoesNotGoIn, Sentence Sand, Sentence Wobbles)
{
    public static PlayWords Ball { get; } = new(
        missed => $"socket Ø − ball Ø, less {missed:0.##} % of each",
        play => $"the ball is larger than the socket: it does not go in. Leave {play:0.0#} mm or so.",
        $"the process may miss by as much; sand the ball until it goes in.",
        $"the ball wobbles, the glue has to fill the gap.");

    public static PlayWords Plug { get; } = new(
        missed => $"sleeve Ø − plug Ø, less {missed:0.##} % of each",
        play => $"the plug is larger than the sleeve: it does not go in. Leave {play:0.0#} mm or so.",
        $"the process may miss by as much; sand the plug until it goes in.",
        $"the plug wobbles, the glue has to fill the gap.");

    public static PlayWords Peg { get; } = new(
        missed => $"hole Ø − peg Ø, less {missed:0.##} % of each",
        play => $"the peg is larger than the hole: it does not go in. Leave {play:0.0#} mm or so.",
        $"the process may miss by as much; sand the peg until it goes in.",
        $"the peg wobbles, the glue has to fill the gap.");
}

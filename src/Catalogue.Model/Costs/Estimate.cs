namespace Catalogue.Model.Costs;

/// <summary>A number with the range it usually lies in.</summary>
public readonly record struct Estimate(double Value, double Low, double High)
{
    public static Estimate Zero { get; } = new(0, 0, 0);

    /// <summary>Both err the same way, because they are worked out by the same rates: ranges add up in full.</summary>
    public static Estimate operator +(Estimate one, Estimate other) => new(one.Value + other.Value, one.Low + other.Low, one.High + other.High);

    public static Estimate operator *(Estimate one, double times) => new(one.Value * times, one.Low * times, one.High * times);

    public static Estimate Add(Estimate one, Estimate other) => one + other;

    public static Estimate Multiply(Estimate one, double times) => one * times;

    /// <summary>The larger of two, with the range of that one.</summary>
    public static Estimate Larger(Estimate one, Estimate other) => other.Value > one.Value ? other : one;
}

using Catalogue.Geometry.Fit;

namespace Catalogue.Data.Ranges;

/// <summary>The largest scale at which variants still fit a printer.</summary>
internal sealed class LargestFit(RangeSearch search, BuildVolume volume)
{
    /// <summary>Scales are told within this, as a share of them; from below.</summary>
    private const double Finest = 0.0005;

    private const double Least = 0.2;
    private const double Most = 5;

    /// <summary>From the fit profile: at most a few per cent less than the best there is, never more. <see cref="Most"/> when it fits even then, 0 when it never does.</summary>
    public async ValueTask<double> AboutAsync(IndexedVariant variant, CancellationToken cancellation)
    {
        if (await search.ProfileAsync(variant, cancellation) is not { } profile) return await BetweenAsync(variant, Least, Most, cancellation);
        return Bisect(Least, Most, scale => profile.Query(volume.At(scale)).Fits);
    }

    /// <summary>From the hull: what is to be told of the part that decides.</summary>
    public async ValueTask<double> ExactAsync(IndexedVariant variant, double about, CancellationToken cancellation)
    {
        if (about is <= 0 or >= Most || await search.ProfileAsync(variant, cancellation) is not { } profile) return about;
        var slack = volume.IsRound ? profile.RoundSlackMm : profile.SlackMm;
        var above = Bisect(about, Most, scale => profile.Query(volume.At(scale)).SpareMm + slack >= 0);
        return await BetweenAsync(variant, about, Math.Min(Most, above * (1 + Finest)), cancellation);
    }

    private async ValueTask<double> BetweenAsync(IndexedVariant variant, double least, double most, CancellationToken cancellation)
    {
        if (!await FitsAsync(least)) return 0;
        if (await FitsAsync(most)) return most;
        while (most > least * (1 + Finest))
        {
            var middle = Math.Sqrt(least * most);
            if (await FitsAsync(middle)) least = middle;
            else most = middle;
        }

        return least;

        async ValueTask<bool> FitsAsync(double scale) => await search.FitAsync(variant, volume.At(scale), exact: true, cancellation) is { Fits: true };
    }

    private static double Bisect(double least, double most, Func<double, bool> fits)
    {
        if (!fits(least)) return 0;
        if (fits(most)) return most;
        while (most > least * (1 + (Finest / 10)))
        {
            var middle = Math.Sqrt(least * most);
            if (fits(middle)) least = middle;
            else most = middle;
        }

        return least;
    }
}

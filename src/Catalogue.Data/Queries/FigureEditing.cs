using Catalogue.Model;
using Catalogue.Model.Figures;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>Changes a figure by its own rules, one change after another, whoever else is at it.</summary>
public static class FigureEditing
{
    /// <summary>Adds a new figure and saves.</summary>
    /// <exception cref="RuleBrokenException"><c>slug-taken</c>. A figure that comes in between is refused by the database instead.</exception>
    public static async Task<Figure> AddFigureAsync(this CatalogueDb db, Figure figure, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(figure);
        if (await db.Figures.AnyAsync(f => f.Slug == figure.Slug, cancellation))
        {
            throw new RuleBrokenException("slug-taken",
                $"There is already a figure “{figure.Slug}” (perhaps withdrawn). Nothing was changed; choose another address for the new one.");
        }

        db.Figures.Add(figure);
        await db.SaveChangesAsync(cancellation);
        return figure;
    }

    /// <summary>Like the others, for a change with nothing to answer.</summary>
    public static Task EditAsync(this CatalogueDb db, string slug, Action<Figure> change, CancellationToken cancellation, int? seen = null)
    {
        ArgumentNullException.ThrowIfNull(change);
        return db.EditAsync(slug, figure =>
        {
            change(figure);
            return Task.FromResult(true);
        }, cancellation, seen);
    }

    /// <summary>Like the other, for a change that only looks at the figure.</summary>
    public static Task<T> EditAsync<T>(this CatalogueDb db, string slug, Func<Figure, T> change, CancellationToken cancellation, int? seen = null) =>
        db.EditAsync(slug, figure => Task.FromResult(change(figure)), cancellation, seen);

    /// <summary>
    /// Takes the figure for itself, loads it whole, changes it, saves. Two who change the same figure wait for each other, so that the
    /// rules always see the present state and the additions of both count.
    /// </summary>
    /// <param name="seen">
    /// The <see cref="Figure.Version"/> the change was decided on; null when the change does not depend on what else changed.
    /// </param>
    /// <remarks>SQLite lets one writer in at a time anyway; on PostgreSQL the first statement locks the figure's row until the end.</remarks>
    /// <exception cref="RuleBrokenException">A rule of the figure; <c>not-found</c>; <c>changed-meanwhile</c> when it is no longer as it was seen.</exception>
    public static async Task<T> EditAsync<T>(
        this CatalogueDb db, string slug, Func<Figure, Task<T>> change, CancellationToken cancellation, int? seen = null)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(change);
        db.ChangeTracker.Clear();
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await db.Figures.Where(f => f.Slug == slug).ExecuteUpdateAsync(set => set.SetProperty(f => f.Version, f => f.Version), cancellation);
        var figure = await db.LoadForEditingAsync(slug, cancellation);
        if (seen is not null && seen != figure.Version)
        {
            throw new RuleBrokenException("changed-meanwhile",
                $"“{figure.Title}” was changed since you looked at it. Nothing was changed by you; look at it again and repeat your change if it still applies.");
        }

        var result = await change(figure);
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        return result;
    }
}

using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Catalogue.Data.Ranges;

/// <summary>Whoever changes the catalogue through this process sees the change in their very next request: every commit makes the index ask again.</summary>
public sealed class OwnChanges(RangeIndex index) : DbTransactionInterceptor
{
    public override Task TransactionCommittedAsync(DbTransaction transaction, TransactionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        index.Forget();
        return Task.CompletedTask;
    }

    public override void TransactionCommitted(DbTransaction transaction, TransactionEndEventData eventData) => index.Forget();
}

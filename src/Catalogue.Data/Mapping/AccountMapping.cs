using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Mapping;

internal static class AccountMapping
{
    public static void Apply(ModelBuilder builder)
    {
        builder.Entity<Account>(b =>
        {
            b.ToTable("accounts");
            b.Property(a => a.DisplayName).HasMaxLength(80);
        });
        builder.Entity<IdentityUserClaim<Guid>>().ToTable("account_claims");
        builder.Entity<IdentityUserLogin<Guid>>().ToTable("account_logins");
        builder.Entity<IdentityUserToken<Guid>>().ToTable("account_tokens");
        builder.Entity<AccessToken>(b =>
        {
            b.ToTable("access_tokens");
            b.Property(t => t.Name).HasMaxLength(80);
            b.Property(t => t.Hash).HasMaxLength(64);
            b.HasIndex(t => t.Hash).IsUnique();
            b.HasOne<Account>().WithMany().HasForeignKey(t => t.AccountId).OnDelete(DeleteBehavior.Cascade);
        });
    }
}

using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>Other limits came into effect while something was being judged: nothing was saved, and it has to be judged again.</summary>
public sealed class LimitsChangedException() : DbUpdateException("Other limits came into effect while this was being judged.");

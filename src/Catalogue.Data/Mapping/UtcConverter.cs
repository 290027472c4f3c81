using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Catalogue.Data.Mapping;

/// <summary>Every stored time is UTC; what comes back says so.</summary>
public sealed class UtcConverter() : ValueConverter<DateTime, DateTime>(
    written => written.Kind == DateTimeKind.Utc ? written : written.ToUniversalTime(),
    read => DateTime.SpecifyKind(read, DateTimeKind.Utc));

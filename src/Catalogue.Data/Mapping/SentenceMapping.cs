using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Catalogue.Data.Mapping;

internal static class SentenceMapping
{
    /// <summary>Kept with what stands in its holes, so that it is read in any language; in English where that takes more than <paramref name="most"/> characters.</summary>
    public static void IsStored(this PropertyBuilder<Sentence> property, int most) => property.HasMaxLength(most).HasConversion(
        sentence => StoredSentence.Write(sentence, most),
        text => StoredSentence.Read(text),
        new ValueComparer<Sentence>(
            (a, b) => ReferenceEquals(a, b) || (a != null && b != null && StoredSentence.Write(a, most) == StoredSentence.Write(b, most)),
            sentence => sentence.GetHashCode()));
}

using Catalogue.Model.Figures;
using Xunit;

namespace Catalogue.Model.Tests.Figures;

public sealed class SpdxExpressionTests
{
    // Forms from the SPDX specification 2.3, annex D.
    [Theory]
    [InlineData("CC-BY-4.0")]
    [InlineData("CDDL-1.0+")]
    [InlineData("LicenseRef-23")]
    [InlineData("DocumentRef-spdx-tool-1.2:LicenseRef-MIT-Style-2")]
    [InlineData("LGPL-2.1-only OR MIT")]
    [InlineData("GPL-2.0-or-later WITH Bison-exception-2.2")]
    [InlineData("MIT AND (LGPL-2.1-or-later OR BSD-3-Clause)")]
    public void An_expression_of_the_specification_is_taken(string text) => Assert.True(SpdxExpression.IsValid(text));

    [Theory]
    [InlineData(null)]
    [InlineData(" ")]
    [InlineData("free for all")]
    [InlineData("MIT OR")]
    [InlineData("AND MIT")]
    [InlineData("(MIT")]
    [InlineData("MIT)")]
    [InlineData("()")]
    [InlineData("MIT++")]
    [InlineData("CC BY 4.0")]
    [InlineData("Ünlicence")]
    public void Anything_else_is_not(string? text) => Assert.False(SpdxExpression.IsValid(text));

    [Fact]
    public void The_common_ones_are_well_formed() => Assert.All(SpdxExpression.Common, id => Assert.True(SpdxExpression.IsValid(id)));
}

using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddRulesToRejudgements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "rules",
                table: "rejudgements",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<bool>(
                name: "rules_changing",
                table: "rejudgements",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "rules",
                table: "rejudgements");

            migrationBuilder.DropColumn(
                name: "rules_changing",
                table: "rejudgements");
        }
    }
}

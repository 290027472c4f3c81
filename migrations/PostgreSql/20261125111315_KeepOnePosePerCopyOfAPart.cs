using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class KeepOnePosePerCopyOfAPart : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "assembled_pose",
                table: "parts");

            migrationBuilder.AddColumn<string>(
                name: "assembled_poses",
                table: "parts",
                type: "text",
                nullable: false,
                defaultValue: "");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "assembled_poses",
                table: "parts");

            migrationBuilder.AddColumn<string>(
                name: "assembled_pose",
                table: "parts",
                type: "text",
                nullable: true);
        }
    }
}

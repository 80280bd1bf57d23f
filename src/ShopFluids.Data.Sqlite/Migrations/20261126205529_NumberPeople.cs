using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class NumberPeople : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // The engine's own statement: EF Core would make the table anew, outside the transaction.
            migrationBuilder.Sql("""ALTER TABLE "StationKeys" DROP COLUMN "CodeByName";""");

            migrationBuilder.AddColumn<DateTime>(
                name: "LeftAtUtc",
                table: "AspNetUsers",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "NameSalt",
                table: "AspNetUsers",
                type: "TEXT",
                maxLength: 32,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "PersonNumbers",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    NameDigest = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PersonNumbers", x => x.Id);
                    table.ForeignKey(
                        name: "FK_PersonNumbers_AspNetUsers_Id",
                        column: x => x.Id,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_PersonNumbers_Number",
                table: "PersonNumbers",
                column: "Number",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "PersonNumbers");

            migrationBuilder.DropColumn(
                name: "LeftAtUtc",
                table: "AspNetUsers");

            migrationBuilder.DropColumn(
                name: "NameSalt",
                table: "AspNetUsers");

            migrationBuilder.AddColumn<string>(
                name: "CodeByName",
                table: "StationKeys",
                type: "TEXT",
                maxLength: 120,
                nullable: true);
        }
    }
}

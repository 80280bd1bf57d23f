using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class NumberPeople : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "CodeByName",
                table: "StationKeys");

            migrationBuilder.AddColumn<DateTime>(
                name: "LeftAtUtc",
                table: "AspNetUsers",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "NameSalt",
                table: "AspNetUsers",
                type: "character varying(32)",
                maxLength: 32,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "PersonNumbers",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    NameDigest = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Version = table.Column<long>(type: "bigint", nullable: false)
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
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class RuleSettings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Tuning",
                table: "Flags",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "RuleSettings",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Rule = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    FluidId = table.Column<Guid>(type: "TEXT", nullable: true),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    IsOn = table.Column<bool>(type: "INTEGER", nullable: true),
                    Numbers = table.Column<string>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    SetAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RuleSettings", x => x.Id);
                    table.CheckConstraint("CK_RuleSettings_Owner", "\"FluidId\" IS NULL OR \"SumpId\" IS NULL");
                    table.ForeignKey(
                        name: "FK_RuleSettings_Fluids_FluidId",
                        column: x => x.FluidId,
                        principalTable: "Fluids",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RuleSettings_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_RuleSettings_FluidId",
                table: "RuleSettings",
                column: "FluidId");

            migrationBuilder.CreateIndex(
                name: "IX_RuleSettings_OfTheShop",
                table: "RuleSettings",
                columns: new[] { "Rule", "Number" },
                unique: true,
                filter: "\"FluidId\" IS NULL AND \"SumpId\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_RuleSettings_Rule_FluidId_Number",
                table: "RuleSettings",
                columns: new[] { "Rule", "FluidId", "Number" },
                unique: true,
                filter: "\"FluidId\" IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "IX_RuleSettings_Rule_SumpId_Number",
                table: "RuleSettings",
                columns: new[] { "Rule", "SumpId", "Number" },
                unique: true,
                filter: "\"SumpId\" IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "IX_RuleSettings_SumpId",
                table: "RuleSettings",
                column: "SumpId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "RuleSettings");

            migrationBuilder.DropColumn(
                name: "Tuning",
                table: "Flags");
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddDoses : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Doses",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    GivenAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Product = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    Amount = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Unit = table.Column<short>(type: "INTEGER", nullable: false),
                    VolumeLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    DensityKgPerLitre = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Measure = table.Column<short>(type: "INTEGER", nullable: false),
                    Reached = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    LabelMost = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    LabelHours = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    ReentryHours = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    IsSafetyConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    NotedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Doses", x => x.Id);
                    table.CheckConstraint("CK_Doses_Amount", "CAST(\"Amount\" AS numeric) >= 0");
                    table.ForeignKey(
                        name: "FK_Doses_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Doses_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Doses_ChargeId",
                table: "Doses",
                column: "ChargeId");

            migrationBuilder.CreateIndex(
                name: "IX_Doses_GivenAtUtc",
                table: "Doses",
                column: "GivenAtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Doses_SumpId_GivenAtUtc",
                table: "Doses",
                columns: new[] { "SumpId", "GivenAtUtc" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Doses");
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class AddRejudgements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "RejudgementId",
                table: "Flags",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "Rejudgements",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    SumpId = table.Column<Guid>(type: "uuid", nullable: true),
                    Reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    PersonId = table.Column<Guid>(type: "uuid", nullable: true),
                    Sumps = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Rejudgements", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Rejudgements_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Flags_RejudgementId",
                table: "Flags",
                column: "RejudgementId");

            migrationBuilder.CreateIndex(
                name: "IX_Rejudgements_SumpId",
                table: "Rejudgements",
                column: "SumpId");

            migrationBuilder.AddForeignKey(
                name: "FK_Flags_Rejudgements_RejudgementId",
                table: "Flags",
                column: "RejudgementId",
                principalTable: "Rejudgements",
                principalColumn: "Id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_Flags_Rejudgements_RejudgementId",
                table: "Flags");

            migrationBuilder.DropTable(
                name: "Rejudgements");

            migrationBuilder.DropIndex(
                name: "IX_Flags_RejudgementId",
                table: "Flags");

            migrationBuilder.DropColumn(
                name: "RejudgementId",
                table: "Flags");
        }
    }
}

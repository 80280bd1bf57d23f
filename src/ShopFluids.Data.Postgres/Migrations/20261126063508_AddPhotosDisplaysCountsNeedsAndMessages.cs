using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class AddPhotosDisplaysCountsNeedsAndMessages : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "ShiftEnds",
                table: "Sites",
                type: "character varying(60)",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Why",
                table: "CareTasks",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "AcceptedRiskPercent",
                table: "CareSteps",
                type: "numeric(18,6)",
                precision: 18,
                scale: 6,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Needs",
                table: "CareSteps",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "Shift",
                table: "CareSteps",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Template",
                table: "CareSteps",
                type: "character varying(60)",
                maxLength: 60,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "Displays",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    Theme = table.Column<string>(type: "character varying(10)", maxLength: 10, nullable: false),
                    AreaId = table.Column<Guid>(type: "uuid", nullable: true),
                    MadeAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Displays", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Displays_Areas_AreaId",
                        column: x => x.AreaId,
                        principalTable: "Areas",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "EscalationNotices",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Channel = table.Column<short>(type: "smallint", nullable: false),
                    MadeAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Content = table.Column<string>(type: "text", nullable: false),
                    Tries = table.Column<int>(type: "integer", nullable: false),
                    NextTryAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EndedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    IsSent = table.Column<bool>(type: "boolean", nullable: false),
                    LastFault = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_EscalationNotices", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "LotAdjustments",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    LotId = table.Column<Guid>(type: "uuid", nullable: false),
                    Kind = table.Column<short>(type: "smallint", nullable: false),
                    BeforeLitres = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    AfterLitres = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    AdjustedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    PersonId = table.Column<Guid>(type: "uuid", nullable: true),
                    Version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LotAdjustments", x => x.Id);
                    table.CheckConstraint("CK_LotAdjustments_After", "CAST(\"AfterLitres\" AS numeric) >= 0");
                    table.CheckConstraint("CK_LotAdjustments_Before", "CAST(\"BeforeLitres\" AS numeric) >= 0");
                    table.ForeignKey(
                        name: "FK_LotAdjustments_FluidLots_LotId",
                        column: x => x.LotId,
                        principalTable: "FluidLots",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Photos",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    SumpId = table.Column<Guid>(type: "uuid", nullable: false),
                    TakenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Kind = table.Column<short>(type: "smallint", nullable: false),
                    WidthPixels = table.Column<int>(type: "integer", nullable: false),
                    HeightPixels = table.Column<int>(type: "integer", nullable: false),
                    Orientation = table.Column<int>(type: "integer", nullable: false),
                    ByteCount = table.Column<int>(type: "integer", nullable: false),
                    Sha256 = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Photos", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Photos_Readings_Id",
                        column: x => x.Id,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Photos_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "DisplayKeys",
                columns: table => new
                {
                    DisplayId = table.Column<Guid>(type: "uuid", nullable: false),
                    Hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DisplayKeys", x => x.DisplayId);
                    table.ForeignKey(
                        name: "FK_DisplayKeys_Displays_DisplayId",
                        column: x => x.DisplayId,
                        principalTable: "Displays",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "PhotoContents",
                columns: table => new
                {
                    PhotoId = table.Column<Guid>(type: "uuid", nullable: false),
                    Bytes = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PhotoContents", x => x.PhotoId);
                    table.ForeignKey(
                        name: "FK_PhotoContents_Photos_PhotoId",
                        column: x => x.PhotoId,
                        principalTable: "Photos",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_DisplayKeys_Hash",
                table: "DisplayKeys",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Displays_AreaId",
                table: "Displays",
                column: "AreaId");

            migrationBuilder.CreateIndex(
                name: "IX_EscalationNotices_Waiting",
                table: "EscalationNotices",
                column: "NextTryAtUtc",
                filter: "\"EndedAtUtc\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_LotAdjustments_LotId_AdjustedAtUtc",
                table: "LotAdjustments",
                columns: new[] { "LotId", "AdjustedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Photos_SumpId_TakenAtUtc",
                table: "Photos",
                columns: new[] { "SumpId", "TakenAtUtc" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "DisplayKeys");

            migrationBuilder.DropTable(
                name: "EscalationNotices");

            migrationBuilder.DropTable(
                name: "LotAdjustments");

            migrationBuilder.DropTable(
                name: "PhotoContents");

            migrationBuilder.DropTable(
                name: "Displays");

            migrationBuilder.DropTable(
                name: "Photos");

            migrationBuilder.DropColumn(
                name: "ShiftEnds",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "Why",
                table: "CareTasks");

            migrationBuilder.DropColumn(
                name: "AcceptedRiskPercent",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Needs",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Shift",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Template",
                table: "CareSteps");
        }
    }
}

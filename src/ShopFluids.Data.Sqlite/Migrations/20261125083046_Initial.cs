using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "AspNetRoles",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetRoles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUsers",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    DisplayName = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Units = table.Column<short>(type: "INTEGER", nullable: true),
                    Theme = table.Column<string>(type: "TEXT", maxLength: 10, nullable: false),
                    UserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    PasswordHash = table.Column<string>(type: "TEXT", nullable: true),
                    SecurityStamp = table.Column<string>(type: "TEXT", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "TEXT", nullable: true),
                    PhoneNumber = table.Column<string>(type: "TEXT", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUsers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "DataProtectionKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    FriendlyName = table.Column<string>(type: "TEXT", nullable: true),
                    Xml = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DataProtectionKeys", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Fluids",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    NameKey = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    RefractometerFactor = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    TitrationFactor = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    TargetPercent = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    PremixMinimumPercent = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    PremixMaximumPercent = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    ShelfLifeDays = table.Column<int>(type: "INTEGER", nullable: false),
                    WasteCode = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    SafetySheetPlace = table.Column<string>(type: "TEXT", maxLength: 200, nullable: true),
                    Biocide = table.Column<string>(type: "TEXT", maxLength: 120, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Fluids", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Instruments",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Tag = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    TagKey = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    Resolution = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Accuracy = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    CompensatesTemperature = table.Column<bool>(type: "INTEGER", nullable: false),
                    CheckedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Instruments", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Parameters",
                columns: table => new
                {
                    Code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: true),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Scale = table.Column<short>(type: "INTEGER", nullable: false),
                    Unit = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Decimals = table.Column<int>(type: "INTEGER", nullable: false),
                    PlausibleLow = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    PlausibleHigh = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    UsualLow = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    UsualHigh = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    UnlikelyStep = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Accuracy = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Parameters", x => x.Code);
                });

            migrationBuilder.CreateTable(
                name: "RecordEntries",
                columns: table => new
                {
                    Sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ActorId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ActorName = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Code = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    Subject = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Changes = table.Column<string>(type: "TEXT", nullable: false),
                    PreviousHash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RecordEntries", x => x.Sequence);
                });

            migrationBuilder.CreateTable(
                name: "RecordHead",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    SetupVersion = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RecordHead", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Sites",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    TimeZoneId = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Culture = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Units = table.Column<short>(type: "INTEGER", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", maxLength: 3, nullable: false),
                    DayStartHour = table.Column<int>(type: "INTEGER", nullable: false),
                    ClosedWeekdays = table.Column<int>(type: "INTEGER", nullable: false),
                    MeasurableLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    SafetySheetPlace = table.Column<string>(type: "TEXT", maxLength: 200, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sites", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "WaterSources",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    ZeroBrix = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    HardnessMgPerLitre = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    NitrateMgPerLitre = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    NitriteMgPerLitre = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_WaterSources", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AspNetRoleClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    RoleId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ClaimType = table.Column<string>(type: "TEXT", nullable: true),
                    ClaimValue = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetRoleClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetRoleClaims_AspNetRoles_RoleId",
                        column: x => x.RoleId,
                        principalTable: "AspNetRoles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ApiTokens",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ApiTokens", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ApiTokens_AspNetUsers_PersonId",
                        column: x => x.PersonId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ClaimType = table.Column<string>(type: "TEXT", nullable: true),
                    ClaimValue = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "TEXT", nullable: false),
                    ProviderKey = table.Column<string>(type: "TEXT", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "TEXT", nullable: true),
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserRoles",
                columns: table => new
                {
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false),
                    RoleId = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserRoles", x => new { x.UserId, x.RoleId });
                    table.ForeignKey(
                        name: "FK_AspNetUserRoles_AspNetRoles_RoleId",
                        column: x => x.RoleId,
                        principalTable: "AspNetRoles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_AspNetUserRoles_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                columns: table => new
                {
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false),
                    LoginProvider = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "FluidLots",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    FluidId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    NumberKey = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    ReceivedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    ReceivedLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    RemainingLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    PricePerLitre = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    IsQuarantined = table.Column<bool>(type: "INTEGER", nullable: false),
                    QuarantineReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FluidLots", x => x.Id);
                    table.CheckConstraint("CK_FluidLots_Remaining", "CAST(\"RemainingLitres\" AS numeric) >= 0");
                    table.ForeignKey(
                        name: "FK_FluidLots_Fluids_FluidId",
                        column: x => x.FluidId,
                        principalTable: "Fluids",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Areas",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SiteId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    WalkOrder = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Areas", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Areas_Sites_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Sites",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Machines",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    AreaId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Tag = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    TagKey = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Process = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    WeeklyHours = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Delivery = table.Column<short>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Machines", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Machines_Areas_AreaId",
                        column: x => x.AreaId,
                        principalTable: "Areas",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Sumps",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    AreaId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Tag = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    TagKey = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Shape = table.Column<string>(type: "TEXT", nullable: false),
                    FullMarkMm = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    PumpIntakeMm = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    WalkOrder = table.Column<int>(type: "INTEGER", nullable: false),
                    WaterSourceId = table.Column<Guid>(type: "TEXT", nullable: true),
                    IsRetired = table.Column<bool>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sumps", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Sumps_Areas_AreaId",
                        column: x => x.AreaId,
                        principalTable: "Areas",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sumps_WaterSources_WaterSourceId",
                        column: x => x.WaterSourceId,
                        principalTable: "WaterSources",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "CarePlans",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CarePlans", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CarePlans_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Charges",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    FluidId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    FilledAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DrainedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    FillLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Charges", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Charges_Fluids_FluidId",
                        column: x => x.FluidId,
                        principalTable: "Fluids",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Charges_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "LimitSets",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    FluidId = table.Column<Guid>(type: "TEXT", nullable: true),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    ValidFromUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Limits = table.Column<string>(type: "TEXT", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LimitSets", x => x.Id);
                    table.CheckConstraint("CK_LimitSets_Owner", "(\"FluidId\" IS NULL) <> (\"SumpId\" IS NULL)");
                    table.ForeignKey(
                        name: "FK_LimitSets_Fluids_FluidId",
                        column: x => x.FluidId,
                        principalTable: "Fluids",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_LimitSets_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Standings",
                columns: table => new
                {
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Verdict = table.Column<short>(type: "INTEGER", nullable: false),
                    Direction = table.Column<short>(type: "INTEGER", nullable: false),
                    LastReadAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    VolumeLitres = table.Column<double>(type: "REAL", nullable: true),
                    OpenFlagCount = table.Column<int>(type: "INTEGER", nullable: false),
                    NextTestDueAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    NextDueAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Facts = table.Column<string>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Standings", x => x.SumpId);
                    table.ForeignKey(
                        name: "FK_Standings_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SumpMachine",
                columns: table => new
                {
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    MachineId = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SumpMachine", x => new { x.SumpId, x.MachineId });
                    table.ForeignKey(
                        name: "FK_SumpMachine_Machines_MachineId",
                        column: x => x.MachineId,
                        principalTable: "Machines",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SumpMachine_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "CareSteps",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    CarePlanId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    Basis = table.Column<short>(type: "INTEGER", nullable: false),
                    IntervalDays = table.Column<int>(type: "INTEGER", nullable: false),
                    Anchor = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    ClosedDays = table.Column<short>(type: "INTEGER", nullable: false),
                    Parameters = table.Column<string>(type: "TEXT", nullable: false),
                    EstimatedMinutes = table.Column<int>(type: "INTEGER", nullable: false),
                    IsStopped = table.Column<bool>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CareSteps", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CareSteps_CarePlans_CarePlanId",
                        column: x => x.CarePlanId,
                        principalTable: "CarePlans",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Readings",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    TakenAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    StoredAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    Fingerprint = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    SupersedesId = table.Column<Guid>(type: "TEXT", nullable: true),
                    CorrectionReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Verdict = table.Column<short>(type: "INTEGER", nullable: false),
                    Outcome = table.Column<string>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Readings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Readings_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Readings_Readings_SupersedesId",
                        column: x => x.SupersedesId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Readings_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Removals",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    RemovedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Litres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Removals", x => x.Id);
                    table.CheckConstraint("CK_Removals_Litres", "CAST(\"Litres\" AS numeric) >= 0");
                    table.ForeignKey(
                        name: "FK_Removals_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "CareTasks",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    Cause = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    StepId = table.Column<Guid>(type: "TEXT", nullable: true),
                    DueAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Recipe = table.Column<string>(type: "TEXT", nullable: true),
                    AssignedToId = table.Column<Guid>(type: "TEXT", nullable: true),
                    State = table.Column<short>(type: "INTEGER", nullable: false),
                    EndedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    EndedByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndedByReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CareTasks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CareTasks_CareSteps_StepId",
                        column: x => x.StepId,
                        principalTable: "CareSteps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CareTasks_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Additions",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    AddedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    WaterLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    ConcentrateLitres = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    LotId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    OverrideReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Additions", x => x.Id);
                    table.CheckConstraint("CK_Additions_Concentrate", "CAST(\"ConcentrateLitres\" AS numeric) >= 0");
                    table.CheckConstraint("CK_Additions_Water", "CAST(\"WaterLitres\" AS numeric) >= 0");
                    table.ForeignKey(
                        name: "FK_Additions_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Additions_FluidLots_LotId",
                        column: x => x.LotId,
                        principalTable: "FluidLots",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Additions_Readings_ReadingId",
                        column: x => x.ReadingId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Flags",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Rule = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    RuleVersion = table.Column<int>(type: "INTEGER", nullable: false),
                    Parameter = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Severity = table.Column<short>(type: "INTEGER", nullable: false),
                    Direction = table.Column<short>(type: "INTEGER", nullable: false),
                    Numbers = table.Column<string>(type: "TEXT", nullable: false),
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    RaisedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LimitSetId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    EndedHow = table.Column<short>(type: "INTEGER", nullable: true),
                    EndedByReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndedByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Flags", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Flags_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Flags_Readings_ReadingId",
                        column: x => x.ReadingId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Flags_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Measurements",
                columns: table => new
                {
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Parameter = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Method = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    RawValue = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: false),
                    RawUnit = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    InstrumentId = table.Column<Guid>(type: "TEXT", nullable: true),
                    TemperatureCelsius = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Factor = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    ZeroBrix = table.Column<decimal>(type: "TEXT", precision: 18, scale: 6, nullable: true),
                    Value = table.Column<double>(type: "REAL", nullable: false),
                    Uncertainty = table.Column<double>(type: "REAL", nullable: false),
                    Verdict = table.Column<short>(type: "INTEGER", nullable: false),
                    Direction = table.Column<short>(type: "INTEGER", nullable: false),
                    LimitSetId = table.Column<Guid>(type: "TEXT", nullable: true),
                    IsConfirmed = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Measurements", x => new { x.ReadingId, x.Parameter, x.Method });
                    table.ForeignKey(
                        name: "FK_Measurements_Readings_ReadingId",
                        column: x => x.ReadingId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.InsertData(
                table: "RecordHead",
                columns: new[] { "Id", "Hash", "Sequence", "SetupVersion" },
                values: new object[] { 1, "0000000000000000000000000000000000000000000000000000000000000000", 0L, 0L });

            migrationBuilder.CreateIndex(
                name: "IX_Additions_ChargeId_AddedAtUtc",
                table: "Additions",
                columns: new[] { "ChargeId", "AddedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Additions_LotId",
                table: "Additions",
                column: "LotId");

            migrationBuilder.CreateIndex(
                name: "IX_Additions_ReadingId",
                table: "Additions",
                column: "ReadingId");

            migrationBuilder.CreateIndex(
                name: "IX_ApiTokens_Hash",
                table: "ApiTokens",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ApiTokens_PersonId",
                table: "ApiTokens",
                column: "PersonId");

            migrationBuilder.CreateIndex(
                name: "IX_Areas_SiteId",
                table: "Areas",
                column: "SiteId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetRoleClaims_RoleId",
                table: "AspNetRoleClaims",
                column: "RoleId");

            migrationBuilder.CreateIndex(
                name: "RoleNameIndex",
                table: "AspNetRoles",
                column: "NormalizedName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                table: "AspNetUserClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                table: "AspNetUserLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserRoles_RoleId",
                table: "AspNetUserRoles",
                column: "RoleId");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "AspNetUsers",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "AspNetUsers",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_CarePlans_SumpId",
                table: "CarePlans",
                column: "SumpId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_CareSteps_CarePlanId",
                table: "CareSteps",
                column: "CarePlanId");

            migrationBuilder.CreateIndex(
                name: "IX_CareTasks_OneOpen",
                table: "CareTasks",
                columns: new[] { "SumpId", "Kind", "Cause" },
                unique: true,
                filter: "\"State\" = 1");

            migrationBuilder.CreateIndex(
                name: "IX_CareTasks_State_DueAtUtc",
                table: "CareTasks",
                columns: new[] { "State", "DueAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_CareTasks_StepId",
                table: "CareTasks",
                column: "StepId");

            migrationBuilder.CreateIndex(
                name: "IX_CareTasks_SumpId_EndedAtUtc",
                table: "CareTasks",
                columns: new[] { "SumpId", "EndedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Charges_FluidId",
                table: "Charges",
                column: "FluidId");

            migrationBuilder.CreateIndex(
                name: "IX_Charges_OneOpen",
                table: "Charges",
                column: "SumpId",
                unique: true,
                filter: "\"DrainedAtUtc\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_Charges_SumpId_Number",
                table: "Charges",
                columns: new[] { "SumpId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Flags_ChargeId",
                table: "Flags",
                column: "ChargeId");

            migrationBuilder.CreateIndex(
                name: "IX_Flags_OneOpen",
                table: "Flags",
                columns: new[] { "SumpId", "Rule", "Parameter" },
                unique: true,
                filter: "\"EndedAtUtc\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_Flags_ReadingId",
                table: "Flags",
                column: "ReadingId");

            migrationBuilder.CreateIndex(
                name: "IX_Flags_SumpId_RaisedAtUtc",
                table: "Flags",
                columns: new[] { "SumpId", "RaisedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_FluidLots_FluidId_NumberKey",
                table: "FluidLots",
                columns: new[] { "FluidId", "NumberKey" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Fluids_NameKey",
                table: "Fluids",
                column: "NameKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_TagKey",
                table: "Instruments",
                column: "TagKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_LimitSets_FluidId_Number",
                table: "LimitSets",
                columns: new[] { "FluidId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_LimitSets_SumpId_Number",
                table: "LimitSets",
                columns: new[] { "SumpId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Machines_AreaId",
                table: "Machines",
                column: "AreaId");

            migrationBuilder.CreateIndex(
                name: "IX_Machines_TagKey",
                table: "Machines",
                column: "TagKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Readings_ChargeId_TakenAtUtc",
                table: "Readings",
                columns: new[] { "ChargeId", "TakenAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Readings_SumpId_TakenAtUtc",
                table: "Readings",
                columns: new[] { "SumpId", "TakenAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Readings_SupersedesId",
                table: "Readings",
                column: "SupersedesId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Removals_ChargeId_RemovedAtUtc",
                table: "Removals",
                columns: new[] { "ChargeId", "RemovedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_SumpMachine_MachineId",
                table: "SumpMachine",
                column: "MachineId");

            migrationBuilder.CreateIndex(
                name: "IX_Sumps_AreaId",
                table: "Sumps",
                column: "AreaId");

            migrationBuilder.CreateIndex(
                name: "IX_Sumps_TagKey",
                table: "Sumps",
                column: "TagKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Sumps_WaterSourceId",
                table: "Sumps",
                column: "WaterSourceId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Additions");

            migrationBuilder.DropTable(
                name: "ApiTokens");

            migrationBuilder.DropTable(
                name: "AspNetRoleClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins");

            migrationBuilder.DropTable(
                name: "AspNetUserRoles");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens");

            migrationBuilder.DropTable(
                name: "CareTasks");

            migrationBuilder.DropTable(
                name: "DataProtectionKeys");

            migrationBuilder.DropTable(
                name: "Flags");

            migrationBuilder.DropTable(
                name: "Instruments");

            migrationBuilder.DropTable(
                name: "LimitSets");

            migrationBuilder.DropTable(
                name: "Measurements");

            migrationBuilder.DropTable(
                name: "Parameters");

            migrationBuilder.DropTable(
                name: "RecordEntries");

            migrationBuilder.DropTable(
                name: "RecordHead");

            migrationBuilder.DropTable(
                name: "Removals");

            migrationBuilder.DropTable(
                name: "Standings");

            migrationBuilder.DropTable(
                name: "SumpMachine");

            migrationBuilder.DropTable(
                name: "FluidLots");

            migrationBuilder.DropTable(
                name: "AspNetRoles");

            migrationBuilder.DropTable(
                name: "AspNetUsers");

            migrationBuilder.DropTable(
                name: "CareSteps");

            migrationBuilder.DropTable(
                name: "Readings");

            migrationBuilder.DropTable(
                name: "Machines");

            migrationBuilder.DropTable(
                name: "CarePlans");

            migrationBuilder.DropTable(
                name: "Charges");

            migrationBuilder.DropTable(
                name: "Fluids");

            migrationBuilder.DropTable(
                name: "Sumps");

            migrationBuilder.DropTable(
                name: "Areas");

            migrationBuilder.DropTable(
                name: "WaterSources");

            migrationBuilder.DropTable(
                name: "Sites");
        }
    }
}

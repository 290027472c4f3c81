using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class InitialCatalogue : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "accounts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    display_name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    is_host = table.Column<bool>(type: "INTEGER", nullable: false),
                    user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    password_hash = table.Column<string>(type: "TEXT", nullable: true),
                    security_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    concurrency_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    phone_number = table.Column<string>(type: "TEXT", nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    access_failed_count = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_accounts", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "figures",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    slug = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    title = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    summary = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    story = table.Column<string>(type: "TEXT", nullable: false),
                    painting_notes = table.Column<string>(type: "TEXT", nullable: false),
                    reference_note = table.Column<string>(type: "TEXT", nullable: false),
                    height_mm = table.Column<double>(type: "REAL", nullable: false),
                    scale_denominator = table.Column<double>(type: "REAL", nullable: true),
                    licence = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    credits = table.Column<string>(type: "TEXT", nullable: false),
                    cautions = table.Column<string>(type: "TEXT", nullable: false),
                    status = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    current_edition_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    last_edition_number = table.Column<int>(type: "INTEGER", nullable: false),
                    created_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    changed_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    published_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_figures", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "inspections",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    unit_key = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    check_version = table.Column<int>(type: "INTEGER", nullable: false),
                    attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    progress_percent = table.Column<int>(type: "INTEGER", nullable: false),
                    stage = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    error_code = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    error_message = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    queued_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    started_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    finished_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    triangles = table.Column<int>(type: "INTEGER", nullable: false),
                    open_edges = table.Column<int>(type: "INTEGER", nullable: false),
                    size_x_mm = table.Column<double>(type: "REAL", nullable: false),
                    size_y_mm = table.Column<double>(type: "REAL", nullable: false),
                    size_z_mm = table.Column<double>(type: "REAL", nullable: false),
                    volume_mm3 = table.Column<double>(type: "REAL", nullable: false),
                    area_mm2 = table.Column<double>(type: "REAL", nullable: false),
                    fit_profile = table.Column<byte[]>(type: "BLOB", nullable: false),
                    hull = table.Column<byte[]>(type: "BLOB", nullable: false),
                    facts_json = table.Column<string>(type: "TEXT", nullable: false),
                    report_json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_inspections", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "processes",
                columns: table => new
                {
                    code = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    description = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    material_density_high = table.Column<double>(type: "REAL", nullable: false),
                    material_density_low = table.Column<double>(type: "REAL", nullable: false),
                    material_elongation_high_percent = table.Column<double>(type: "REAL", nullable: false),
                    material_elongation_low_percent = table.Column<double>(type: "REAL", nullable: false),
                    material_modulus_high_g_pa = table.Column<double>(type: "REAL", nullable: false),
                    material_modulus_low_g_pa = table.Column<double>(type: "REAL", nullable: false),
                    material_name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    material_origin = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    material_relative_price = table.Column<double>(type: "REAL", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_processes", x => x.code);
                });

            migrationBuilder.CreateTable(
                name: "ranges",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false),
                    title = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    introduction = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    width_mm = table.Column<double>(type: "REAL", nullable: false),
                    depth_mm = table.Column<double>(type: "REAL", nullable: false),
                    height_mm = table.Column<double>(type: "REAL", nullable: false),
                    processes = table.Column<string>(type: "TEXT", nullable: false),
                    revision = table.Column<long>(type: "INTEGER", nullable: false),
                    judgement_revision = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ranges", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "access_tokens",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    account_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    created_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    revoked_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_access_tokens", x => x.id);
                    table.ForeignKey(
                        name: "fk_access_tokens_accounts_account_id",
                        column: x => x.account_id,
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    claim_type = table.Column<string>(type: "TEXT", nullable: true),
                    claim_value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_account_claims_accounts_user_id",
                        column: x => x.user_id,
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_logins",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "TEXT", nullable: false),
                    provider_key = table.Column<string>(type: "TEXT", nullable: false),
                    provider_display_name = table.Column<string>(type: "TEXT", nullable: true),
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_logins", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_account_logins_accounts_user_id",
                        column: x => x.user_id,
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_tokens",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    login_provider = table.Column<string>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_tokens", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_account_tokens_accounts_user_id",
                        column: x => x.user_id,
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "choices",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    slug = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    default_part_id = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_choices", x => x.id);
                    table.ForeignKey(
                        name: "fk_choices_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "editions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    published_at = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_editions", x => x.id);
                    table.ForeignKey(
                        name: "fk_editions_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "hardware_needs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    size = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    quantity = table.Column<int>(type: "INTEGER", nullable: false),
                    cut_length_mm = table.Column<double>(type: "REAL", nullable: true),
                    diameter_mm = table.Column<double>(type: "REAL", nullable: true),
                    substitutes = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    caution = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    is_optional = table.Column<bool>(type: "INTEGER", nullable: false),
                    processes = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_hardware_needs", x => x.id);
                    table.ForeignKey(
                        name: "fk_hardware_needs_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "process_limits",
                columns: table => new
                {
                    process_code = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    key = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    value = table.Column<double>(type: "REAL", nullable: false),
                    unit = table.Column<string>(type: "TEXT", maxLength: 10, nullable: false),
                    origin = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_process_limits", x => new { x.process_code, x.key });
                    table.ForeignKey(
                        name: "fk_process_limits_processes_process_code",
                        column: x => x.process_code,
                        principalTable: "processes",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "parts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    slug = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    quantity = table.Column<int>(type: "INTEGER", nullable: false),
                    role = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    choice_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    removed_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    assembled_poses = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parts", x => x.id);
                    table.ForeignKey(
                        name: "fk_parts_choice_choice_id",
                        column: x => x.choice_id,
                        principalTable: "choices",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parts_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "hardware_parts",
                columns: table => new
                {
                    hardware_need_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    parts_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_hardware_parts", x => new { x.hardware_need_id, x.parts_id });
                    table.ForeignKey(
                        name: "fk_hardware_parts_hardware_needs_hardware_need_id",
                        column: x => x.hardware_need_id,
                        principalTable: "hardware_needs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_hardware_parts_parts_parts_id",
                        column: x => x.parts_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "joints",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    first_part_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    second_part_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    inner_diameter_mm = table.Column<double>(type: "REAL", nullable: true),
                    outer_diameter_mm = table.Column<double>(type: "REAL", nullable: true),
                    mouth_diameter_mm = table.Column<double>(type: "REAL", nullable: true),
                    length_mm = table.Column<double>(type: "REAL", nullable: true),
                    note = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    processes = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_joints", x => x.id);
                    table.ForeignKey(
                        name: "fk_joints_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_joints_parts_first_part_id",
                        column: x => x.first_part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_joints_parts_second_part_id",
                        column: x => x.second_part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "steps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    title = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    body = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    processes = table.Column<string>(type: "TEXT", nullable: false),
                    choice_part_id = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_steps", x => x.id);
                    table.ForeignKey(
                        name: "fk_steps_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_steps_parts_choice_part_id",
                        column: x => x.choice_part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "variants",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    part_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    slug = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    last_revision_number = table.Column<int>(type: "INTEGER", nullable: false),
                    removed_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_variants", x => x.id);
                    table.ForeignKey(
                        name: "fk_variants_parts_part_id",
                        column: x => x.part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "step_hardware",
                columns: table => new
                {
                    hardware_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_step_hardware", x => new { x.hardware_id, x.step_id });
                    table.ForeignKey(
                        name: "fk_step_hardware_hardware_needs_hardware_id",
                        column: x => x.hardware_id,
                        principalTable: "hardware_needs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_step_hardware_steps_step_id",
                        column: x => x.step_id,
                        principalTable: "steps",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "step_parts",
                columns: table => new
                {
                    parts_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    step_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_step_parts", x => new { x.parts_id, x.step_id });
                    table.ForeignKey(
                        name: "fk_step_parts_parts_parts_id",
                        column: x => x.parts_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_step_parts_steps_step_id",
                        column: x => x.step_id,
                        principalTable: "steps",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "declarations",
                columns: table => new
                {
                    variant_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    reservation = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_declarations", x => new { x.variant_id, x.process });
                    table.ForeignKey(
                        name: "fk_declarations_variants_variant_id",
                        column: x => x.variant_id,
                        principalTable: "variants",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "revisions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    variant_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    file_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    stated_unit = table.Column<string>(type: "TEXT", maxLength: 40, nullable: true),
                    note = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    uploaded_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    published_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    discarded_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    inspection_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_revisions", x => x.id);
                    table.ForeignKey(
                        name: "fk_revisions_inspections_inspection_id",
                        column: x => x.inspection_id,
                        principalTable: "inspections",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_revisions_variants_variant_id",
                        column: x => x.variant_id,
                        principalTable: "variants",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "edition_entries",
                columns: table => new
                {
                    edition_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    variant_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    part_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    revision_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_edition_entries", x => new { x.edition_id, x.variant_id });
                    table.ForeignKey(
                        name: "fk_edition_entries_editions_edition_id",
                        column: x => x.edition_id,
                        principalTable: "editions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_edition_entries_parts_part_id",
                        column: x => x.part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_edition_entries_revisions_revision_id",
                        column: x => x.revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_edition_entries_variants_variant_id",
                        column: x => x.variant_id,
                        principalTable: "variants",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reports",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    figure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    part_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    revision_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    outcome = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    symptom = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    stage = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    printer = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    layer_height_mm = table.Column<double>(type: "REAL", nullable: true),
                    note = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    reported_by = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    reported_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    answered_by_revision_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    answer = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    answered_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reports", x => x.id);
                    table.ForeignKey(
                        name: "fk_reports_figures_figure_id",
                        column: x => x.figure_id,
                        principalTable: "figures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reports_parts_part_id",
                        column: x => x.part_id,
                        principalTable: "parts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reports_revisions_answered_by_revision_id",
                        column: x => x.answered_by_revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reports_revisions_revision_id",
                        column: x => x.revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "revision_verdicts",
                columns: table => new
                {
                    revision_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    verdict = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    findings_json = table.Column<string>(type: "TEXT", nullable: false),
                    judged_at = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_revision_verdicts", x => new { x.revision_id, x.process });
                    table.ForeignKey(
                        name: "fk_revision_verdicts_revisions_revision_id",
                        column: x => x.revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_access_tokens_account_id",
                table: "access_tokens",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_access_tokens_hash",
                table: "access_tokens",
                column: "hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_account_claims_user_id",
                table: "account_claims",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_account_logins_user_id",
                table: "account_logins",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "accounts",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "accounts",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_choices_figure_id_slug",
                table: "choices",
                columns: new[] { "figure_id", "slug" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_edition_entries_part_id",
                table: "edition_entries",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_edition_entries_revision_id",
                table: "edition_entries",
                column: "revision_id");

            migrationBuilder.CreateIndex(
                name: "ix_edition_entries_variant_id",
                table: "edition_entries",
                column: "variant_id");

            migrationBuilder.CreateIndex(
                name: "ix_editions_figure_id_number",
                table: "editions",
                columns: new[] { "figure_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_figures_slug",
                table: "figures",
                column: "slug",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_figures_status",
                table: "figures",
                column: "status");

            migrationBuilder.CreateIndex(
                name: "ix_hardware_needs_figure_id",
                table: "hardware_needs",
                column: "figure_id");

            migrationBuilder.CreateIndex(
                name: "ix_hardware_parts_parts_id",
                table: "hardware_parts",
                column: "parts_id");

            migrationBuilder.CreateIndex(
                name: "ix_inspections_sha256_unit_key",
                table: "inspections",
                columns: new[] { "sha256", "unit_key" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_inspections_state",
                table: "inspections",
                column: "state");

            migrationBuilder.CreateIndex(
                name: "ix_joints_figure_id",
                table: "joints",
                column: "figure_id");

            migrationBuilder.CreateIndex(
                name: "ix_joints_first_part_id",
                table: "joints",
                column: "first_part_id");

            migrationBuilder.CreateIndex(
                name: "ix_joints_second_part_id",
                table: "joints",
                column: "second_part_id");

            migrationBuilder.CreateIndex(
                name: "ix_parts_choice_id",
                table: "parts",
                column: "choice_id");

            migrationBuilder.CreateIndex(
                name: "ix_parts_figure_id_slug",
                table: "parts",
                columns: new[] { "figure_id", "slug" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_reports_answered_by_revision_id",
                table: "reports",
                column: "answered_by_revision_id");

            migrationBuilder.CreateIndex(
                name: "ix_reports_figure_id_reported_at",
                table: "reports",
                columns: new[] { "figure_id", "reported_at" });

            migrationBuilder.CreateIndex(
                name: "ix_reports_part_id",
                table: "reports",
                column: "part_id");

            migrationBuilder.CreateIndex(
                name: "ix_reports_revision_id_process",
                table: "reports",
                columns: new[] { "revision_id", "process" });

            migrationBuilder.CreateIndex(
                name: "ix_revisions_inspection_id",
                table: "revisions",
                column: "inspection_id");

            migrationBuilder.CreateIndex(
                name: "ix_revisions_sha256",
                table: "revisions",
                column: "sha256");

            migrationBuilder.CreateIndex(
                name: "ix_revisions_variant_id_number",
                table: "revisions",
                columns: new[] { "variant_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_step_hardware_step_id",
                table: "step_hardware",
                column: "step_id");

            migrationBuilder.CreateIndex(
                name: "ix_step_parts_step_id",
                table: "step_parts",
                column: "step_id");

            migrationBuilder.CreateIndex(
                name: "ix_steps_choice_part_id",
                table: "steps",
                column: "choice_part_id");

            migrationBuilder.CreateIndex(
                name: "ix_steps_figure_id",
                table: "steps",
                column: "figure_id");

            migrationBuilder.CreateIndex(
                name: "ix_variants_part_id_slug",
                table: "variants",
                columns: new[] { "part_id", "slug" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "access_tokens");

            migrationBuilder.DropTable(
                name: "account_claims");

            migrationBuilder.DropTable(
                name: "account_logins");

            migrationBuilder.DropTable(
                name: "account_tokens");

            migrationBuilder.DropTable(
                name: "declarations");

            migrationBuilder.DropTable(
                name: "edition_entries");

            migrationBuilder.DropTable(
                name: "hardware_parts");

            migrationBuilder.DropTable(
                name: "joints");

            migrationBuilder.DropTable(
                name: "process_limits");

            migrationBuilder.DropTable(
                name: "ranges");

            migrationBuilder.DropTable(
                name: "reports");

            migrationBuilder.DropTable(
                name: "revision_verdicts");

            migrationBuilder.DropTable(
                name: "step_hardware");

            migrationBuilder.DropTable(
                name: "step_parts");

            migrationBuilder.DropTable(
                name: "accounts");

            migrationBuilder.DropTable(
                name: "editions");

            migrationBuilder.DropTable(
                name: "processes");

            migrationBuilder.DropTable(
                name: "revisions");

            migrationBuilder.DropTable(
                name: "hardware_needs");

            migrationBuilder.DropTable(
                name: "steps");

            migrationBuilder.DropTable(
                name: "inspections");

            migrationBuilder.DropTable(
                name: "variants");

            migrationBuilder.DropTable(
                name: "parts");

            migrationBuilder.DropTable(
                name: "choices");

            migrationBuilder.DropTable(
                name: "figures");
        }
    }
}

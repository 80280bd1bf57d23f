#!/usr/bin/env bash
# Runs the simulated shop and writes what the rules made of it to docs/rules/measured.md.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
dotnet build tests/ShopFluids.Rules.Tests --nologo --verbosity quiet
SHOPFLUIDS_WRITE_MEASURED=1 tests/ShopFluids.Rules.Tests/bin/Debug/net10.0/ShopFluids.Rules.Tests -method "*Page_OfTheMeasurement_SaysWhatTheRulesGive"
cat docs/rules/measured.md

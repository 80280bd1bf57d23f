#!/usr/bin/env bash
# Starts the demo shop on http://localhost:5080 with the embedded database. Arguments go to the program: run.sh --help
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
exec dotnet run --project src/ShopFluids.Web -- --demo "$@"

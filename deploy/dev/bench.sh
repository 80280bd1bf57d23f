#!/usr/bin/env bash
# Runs the benchmarks in a release build, on SQLite and on a private PostgreSQL server with fsync on, side by side with their floors.
# Prints one line per measurement, tab-separated: name, ours, floor, ratio, target. Exit code 1 when a target is missed.
# Arguments name what is to be measured: evaluate, store-reading, plan, entry-page, board, verify-record, history-sheet; without any it is all of it.
# The board's shop has 300 sumps and 2 years, and for the growth 1 year and 10; SHOPFLUIDS_BENCH_SUMPS and SHOPFLUIDS_BENCH_YEARS set otherwise.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source deploy/dev/packages.sh
source deploy/dev/postgres.sh

packages_install postgresql >&2
dotnet build tests/ShopFluids.Benchmarks --configuration Release --nologo --verbosity quiet >&2

trap postgres_stop EXIT
trap 'exit 130' INT TERM HUP
if [ -z "${SHOPFLUIDS_TEST_POSTGRES_CONNECTION:-}" ]; then
  postgres_start --durable
  export SHOPFLUIDS_TEST_POSTGRES_CONNECTION=$postgres_connection
fi
tests/ShopFluids.Benchmarks/bin/Release/net10.0/ShopFluids.Benchmarks "$@"

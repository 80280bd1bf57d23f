#!/usr/bin/env bash
# Everything that must hold before a change is merged: code style, a build without warnings, migrations that match the model on both
# engines, and every test. Each stage runs even if an earlier one failed, so one run shows all there is to mend.
# The last line is the tests' `N passed, N failed, N skipped`; the exit code is 0 only when every stage is clean.
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
source deploy/dev/packages.sh

broken=()
stage() { # name command...
  local name=$1 started=$SECONDS
  shift
  echo "== $name"
  if "$@"; then echo "== $name: fine, $((SECONDS - started)) s"; else echo "== $name: BROKEN, $((SECONDS - started)) s"; broken+=("$name"); return 1; fi
}

give_up() {
  printf 'BROKEN: %s\n' "${broken[@]}"
  echo "0 passed, 0 failed, 0 skipped"
  exit 1
}

pending_changes() { # provider
  dotnet ef migrations has-pending-model-changes --no-build --context ShopFluidsDbContext \
    --project "src/ShopFluids.Data.$1" --startup-project "src/ShopFluids.Data.$1"
}

# Installed first: the SDK itself needs ICU.
packages_install procps || { broken+=("packages"); give_up; }
stage "restore" dotnet restore ShopFluids.sln --locked-mode --verbosity quiet || give_up
stage "tools" dotnet tool restore --verbosity quiet || give_up
# White space only: the build holds all other rules of style, which would make it run twice, and a test the order of usings.
stage "code style" dotnet format whitespace ShopFluids.sln --verify-no-changes --no-restore --verbosity quiet
stage "build" dotnet build ShopFluids.sln --no-restore --nologo --verbosity quiet --property:TreatWarningsAsErrors=true || give_up
stage "migrations for SQLite match the model" pending_changes Sqlite
stage "migrations for PostgreSQL match the model" pending_changes Postgres

echo "== tests"
output=$(mktemp)
trap 'rm -f "$output"' EXIT
bash deploy/dev/test.sh --no-build | tee "$output"
[ "${PIPESTATUS[0]}" = 0 ] || broken+=("tests")

# The counts close the output, whatever else there is to say.
if [ ${#broken[@]} -gt 0 ]; then printf 'BROKEN: %s\n' "${broken[@]}"; fi
tail -n 1 "$output"
[ ${#broken[@]} = 0 ]
